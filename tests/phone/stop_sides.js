/**
 * Look every count up in the stop plans that are read from standard input: one line for each number of
 * squares, the sides of its counts as letters and lengths, lost by lost and insect by insect.
 */
import { readFileSync } from 'node:fs';
import { sideOf } from '../../src/quarterwalk/phone/stop.js';

const LETTERS = { hold: 'h', treat: 't', 'go-on': 'g' };

/** Write letters that follow each other as one letter and how many. */
const runs = (letters) => letters.replace(/(.)\1*/g, (run, letter) => letter + run.length);

function sides({ rows, insects: mostInsects, lost: mostLost }, squares) {
  let letters = '';
  for (let lost = 0; lost <= Math.min(squares, mostLost); lost += 1) {
    for (let insects = 0; insects <= mostInsects; insects += 1) {
      letters += LETTERS[sideOf(rows, { insects, lost, squares }).side];
    }
  }
  return runs(letters);
}

const looks = JSON.parse(readFileSync(0, 'utf8'));
const told = looks.map((look) => look.squares.map((squares) => sides(look, squares)));
process.stdout.write(JSON.stringify(told));
