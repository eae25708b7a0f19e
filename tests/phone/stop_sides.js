/**
 * Look every count up in the looks of stop plans that are read from standard input. To standard output
 * goes one letter for each count: look by look, by squares, by lost ones, by insects.
 */
import { readFileSync, writeSync } from 'node:fs';
import { sideOf } from '../../src/quarterwalk/phone/stop.js';

const LETTERS = { hold: 'h', treat: 't', 'go-on': 'g' };
const CODES = Object.fromEntries(Object.entries(LETTERS).map(([side, letter]) => [side, letter.charCodeAt(0)]));

/** Write all of it; a pipe may take a part at a time. */
function write(bytes) {
  for (let done = 0; done < bytes.length; done += writeSync(1, bytes, done));
}

for (const { rows, squares: mostSquares, insects: mostInsects, lost: mostLost } of JSON.parse(readFileSync(0, 'utf8'))) {
  for (let squares = 0; squares <= mostSquares; squares += 1) {
    const letters = new Uint8Array((mostLost + 1) * (mostInsects + 1));
    let at = 0;
    for (let lost = 0; lost <= mostLost; lost += 1) {
      for (let insects = 0; insects <= mostInsects; insects += 1) {
        letters[at] = CODES[sideOf(rows, { insects, lost, squares }).side];
        at += 1;
      }
    }
    write(letters);
  }
}
