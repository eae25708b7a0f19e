import assert from 'node:assert/strict';
import { test } from 'node:test';
import { squarePlants, squaresAsked } from '../../src/quarterwalk/phone/squares.js';
import { card } from './made.js';

const at = (stop, checked = 0) => ({ ...card.stops[stop - 1], checked });

test('in week 1 every plant has its squares counted', () => {
  assert.ok([0, 1, 2, 3, 4].every((checked) => squaresAsked(card, '2026-06-22', at(1, checked))));
});

test('in week 2 the first two plants of each stop have', () => {
  assert.deepEqual([0, 1, 2, 4].map((checked) => squaresAsked(card, '2026-07-01', at(7, checked))), [true, true, false, false]);
});

test('in week 3 a quarter has six: two at its first stop, one at each other', () => {
  const ofQuarter = card.stops.filter(({ quadrant }) => quadrant === 'NW');
  assert.deepEqual(ofQuarter.map((stop) => squarePlants(card, '2026-07-05', stop)), [2, 1, 1, 1, 1]);
});

test('where a day may lie in two weeks the earlier one decides, which asks for more', () => {
  const unsure = { ...card, weeks: card.weeks.map((week) => ({ ...week, from: '2026-06-20', to: '2026-07-10' })) };
  assert.equal(squarePlants(unsure, '2026-07-01', at(1)), 5);
});

test('a rule without squares asks for none, nor does a day outside the season', () => {
  assert.equal(squarePlants({ ...card, squares: [] }, '2026-07-01', at(1)), 0);
  assert.equal(squarePlants(card, '2026-08-01', at(1)), 0);
});
