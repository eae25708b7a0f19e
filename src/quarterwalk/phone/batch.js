/** Entries on their way: split into batches, and each answer laid to its entry. */

/** What the office takes at once. */
export const MOST_LINES = 2000;
export const MOST_BYTES = 1_000_000;

const KEPT = new Set(['held', 'already-held', 'quarantined']);
const bytesOf = (line) => new TextEncoder().encode(line).length + 1;

/**
 * Take the first entries that fit into one batch; always at least one.
 * @param {{line: string}[]} records in the order in which they were written
 * @param {{lines?: number, bytes?: number}} [most]
 */
export function firstBatch(records, { lines = MOST_LINES, bytes = MOST_BYTES } = {}) {
  let size = 0;
  let count = 0;
  for (const { line } of records.slice(0, lines)) {
    size += bytesOf(line);
    if (count && size > bytes) break;
    count += 1;
  }
  return records.slice(0, count);
}

/** Write a batch as its body: one entry a line. */
export const bodyOf = (batch) => batch.map(({ line }) => `${line}\n`).join('');

/**
 * Lay the office's answers to the entries of a batch. What it did not answer stays unsent.
 * @param {{device: string, seq: number}[]} batch
 * @param {{device: string|null, seq: number|null, answer: string, why?: string}[]} answers
 * @returns {{device: string, seq: number, answer: string, why?: string}[]}
 */
export function acknowledged(batch, answers) {
  const keys = new Set(batch.map(({ device, seq }) => `${device}-${seq}`));
  const placed = answers.map((each, i) => {
    const named = each.device !== null && each.seq !== null;
    const { device, seq } = named || answers.length !== batch.length ? each : batch[i];
    return { device, seq, answer: each.answer, ...(each.why ? { why: each.why } : {}) };
  });
  return placed.filter(
    ({ device, seq, answer }) => KEPT.has(answer) && keys.has(`${device}-${seq}`),
  );
}

/** First and longest wait between two tries (this project's rule). [ms] */
const FIRST_WAIT = 5_000;
const LONGEST_WAIT = 10 * 60_000;

/** Give how long to wait after so many tries that failed. [ms] */
export const waitAfter = (tries) => Math.min(FIRST_WAIT * 2 ** Math.max(0, tries - 1), LONGEST_WAIT);
