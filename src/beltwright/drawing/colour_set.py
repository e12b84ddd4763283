"""The colours that colour-blind readers can tell apart: M. Okabe and K. Ito, "Color Universal
Design" (2008)."""

BLACK, ORANGE, SKY_BLUE, GREEN = "#000000", "#e69f00", "#56b4e9", "#009e73"
YELLOW, BLUE, VERMILLION, PURPLE = "#f0e442", "#0072b2", "#d55e00", "#cc79a7"
