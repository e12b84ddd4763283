// Says that the program works on an answer that takes long.

import { hush, say } from "./notice.js";

const SOON = 700; // ms in which nothing need be said
const WORDS = "Working it out …";

export async function saysSo(answer) {
  const late = setTimeout(() => say(WORDS, true), SOON);
  try {
    return await answer;
  } finally {
    clearTimeout(late);
    hush(WORDS);
  }
}
