// What the page asks the server for: JSON in, JSON out, and refusals that say why.

const token = document.querySelector('meta[name="token"]').content;

export class Refused extends Error {
  constructor(error) {
    super(error.reason);
    this.status = error.status;
    this.problems = error.problems ?? [];
  }

  get stale() {
    return this.status === 409;
  }

  // The refusal in one sentence, with an example where the server gives one.
  get sentence() {
    const [first] = this.problems;
    return first ? sentenceOf(first) : this.message;
  }
}

// What is wrong in one sentence, with the example as it is typed and not as it stands in the file.
export function sentenceOf(problem) {
  const example = problem.example.replace(/^[^"[{]* = /, "").replace(/^"(.*)"$/, "$1");
  const reason = problem.reason.replace(/^\S+ is missing here\.$/, "This is needed.");
  return example && example !== "…" ? `${reason} For example ${example}.` : reason;
}

export async function ask(path) {
  return answered(await reached(path, {}));
}

export async function send(path, body) {
  const headers = { "Content-Type": "application/json", "X-Beltwright-Token": token };
  return answered(await reached(path, { method: "POST", headers, body: JSON.stringify(body) }));
}

export async function sendForm(path, form) {
  const headers = { "X-Beltwright-Token": token };
  return answered(await reached(path, { method: "POST", headers, body: form }));
}

export async function remove(path) {
  const headers = { "X-Beltwright-Token": token };
  return answered(await reached(path, { method: "DELETE", headers }));
}

async function reached(path, options) {
  try {
    return await fetch(`/api/${path}`, options);
  } catch {
    const reason = "The page's program does not answer. Is it still running? Nothing was lost.";
    throw new Refused({ status: 0, reason });
  }
}

async function answered(answer) {
  const data = await answer.json();
  if (!answer.ok) throw new Refused(data.error);
  return data;
}
