// A recording of any kind that this browser plays, as plain samples that every program reads.

const RATE = 16000;
const LONGEST = 120;
const PLAIN = /^audio\/(x-|vnd\.)?(wav|wave|flac|ogg|mpeg|mp3)/;

// The file itself where it is of a plain kind, or where the browser can't play it either.
export async function asWave(file) {
  if (PLAIN.test(file.type)) return file;
  try {
    const played = await new OfflineAudioContext(1, 1, RATE).decodeAudioData(await file.arrayBuffer());
    return new Blob([wave(played)], { type: "audio/wav" });
  } catch {
    return file;
  }
}

function wave(played) {
  const length = Math.min(played.length, LONGEST * played.sampleRate);
  const channels = Array.from({ length: played.numberOfChannels }, (_, each) => played.getChannelData(each));
  const data = new DataView(new ArrayBuffer(44 + 2 * length));
  header(data, played.sampleRate, length);
  for (let at = 0; at < length; at += 1) {
    const mean = channels.reduce((sum, channel) => sum + channel[at], 0) / channels.length;
    data.setInt16(44 + 2 * at, 32767 * Math.max(-1, Math.min(1, mean)), true);
  }
  return data.buffer;
}

// RIFF/WAVE with one channel of 16-bit samples.
function header(data, rate, length) {
  const word = (at, text) => [...text].forEach((letter, each) => data.setUint8(at + each, letter.charCodeAt(0)));
  word(0, "RIFF");
  data.setUint32(4, 36 + 2 * length, true);
  word(8, "WAVEfmt ");
  data.setUint32(16, 16, true);
  data.setUint16(20, 1, true);
  data.setUint16(22, 1, true);
  data.setUint32(24, rate, true);
  data.setUint32(28, 2 * rate, true);
  data.setUint16(32, 2, true);
  data.setUint16(34, 16, true);
  word(36, "data");
  data.setUint32(40, 2 * length, true);
}
