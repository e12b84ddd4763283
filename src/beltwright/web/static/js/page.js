// The page of one build: puts its parts together.

import { build, onShown, redraw } from "./build.js";
import { showChanges } from "./changes.js";
import { startCharts } from "./charts.js";
import { startChoosing } from "./choosing.js";
import { startDrag } from "./drag.js";
import { startEditor } from "./editor.js";
import { filter, startFindings } from "./findings.js";
import { startForms } from "./forms.js";
import { showScale, startLayers } from "./layers.js";
import { startLooks } from "./looks.js";
import { startMaking } from "./making.js";
import { startNews } from "./news.js";
import { startPointing } from "./pointing.js";
import { startProving } from "./proving.js";
import { startPhoto } from "./photo.js";
import { startRecording } from "./recording.js";
import { showTurns, startTurns } from "./turns.js";
import { showScene, startView } from "./view.js";

onShown((shown) => {
  if (shown?.scene !== undefined) showScene(shown.scene);
  showScale();
  showTurns(build);
  showChanges(build.changes);
  filter();
});

startLayers();
startLooks();
startView(redraw);
startDrag();
startEditor();
startFindings();
startPointing();
startForms();
startTurns();
startPhoto();
startRecording();
startChoosing();
startMaking();
startProving();
startCharts();
startNews();
showChanges(build.changes);
