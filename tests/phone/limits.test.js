import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { test } from 'node:test';
import { insectSide, mayTreatOn, sides, squareSide, weeksOn } from '../../src/quarterwalk/phone/limits.js';
import { card } from './made.js';

const rows = card.limits.insects[0].rows;
const week2 = card.weeks[1];
const seen = (squares, lost, blasted = 0) => ({ squares, lost, blasted });

test('insects on 100 plants stand few under 9, near from 17, over from 25, at a line of 25', () => {
  const side = (insects) => insectSide(rows, 100, insects);
  assert.deepEqual([8, 9, 16, 17, 24, 25].map(side), ['few', 'middle', 'middle', 'near', 'near', 'over']);
});

test('ten insects on 40 plants are at the line of 25 on 100', () => {
  assert.equal(insectSide(rows, 40, 9), 'near');
  assert.equal(insectSide(rows, 40, 10), 'over');
});

test('before the first plant, and past the end of the table, there is no side', () => {
  assert.equal(insectSide(rows, 0, 0), null);
  assert.equal(insectSide(rows, 151, 0), null);
});

test('a limit that is not there is not reached', () => {
  assert.equal(insectSide([[null, null, null], [null, null, 1]], 1, 0), 'few');
});

test('15 lost of 100 are at a floor of 85 %, 16 under it, 21 well under', () => {
  const side = (lost) => squareSide(card.limits, 0.85, seen(100, lost));
  assert.deepEqual([15, 16, 20, 21].map(side), ['fine', 'under', 'under', 'well-under']);
});

test('49 squares are too few to judge by, 50 are not', () => {
  assert.equal(squareSide(card.limits, 0.85, seen(49, 49)), 'not-readable');
  assert.equal(squareSide(card.limits, 0.85, seen(50, 0)), 'fine');
});

test('a rule of insects alone asks for no squares', () => {
  assert.equal(squareSide({ ...card.limits, needs: 'insects' }, 0.85, seen(100, 50)), 'not-asked');
});

test('a rule of the blasted share counts blasted squares, not lost ones', () => {
  const limits = { ...card.limits, needs: 'insects-and-blasted', blasted: { rows: Array(101).fill([10, 15]) } };
  assert.equal(squareSide(limits, null, seen(100, 50, 9)), 'fine');
  assert.equal(squareSide(limits, null, seen(100, 50, 10)), 'under');
});

test('25 insects and 16 of 100 squares lost lean to treat', () => {
  const sums = { plants: 100, insects: 25, ...seen(100, 16) };
  assert.deepEqual(sides(card.limits, week2, sums), { insects: 'over', squares: 'under', verdict: 'treat' });
});

test('where first square is a range a day may lie in two weeks', () => {
  const wide = { weeks: [{ ...week2, week: 1, to: '2026-07-01' }, week2] };
  assert.deepEqual(weeksOn(wide, '2026-07-01').map(({ week }) => week), [1, 2]);
  assert.deepEqual(weeksOn(wide, '2026-07-02').map(({ week }) => week), [2]);
});

test('where fewer than half of the plants square, square set can’t be read', () => {
  const side = (squaring) => squareSide(card.limits, 0.85, { ...seen(60, 20), squarePlants: 41, squaring });
  assert.deepEqual([20, 21].map(side), ['not-readable', 'well-under']);
});

test('treating may stand on the days that the card says, its first and last among them', () => {
  const days = { treat_days: [{ from: '2026-06-20', to: '2026-07-10' }] };
  const may = (day) => mayTreatOn(days, day);
  assert.deepEqual(['2026-06-19', '2026-06-20', '2026-07-10', '2026-07-11'].map(may), [false, true, true, false]);
});

const GOLDEN = new URL('../card/golden/', import.meta.url);
const goldens = readdirSync(GOLDEN).map((name) => [name, JSON.parse(readFileSync(new URL(name, GOLDEN), 'utf8'))]);

test('there are golden cards', () => assert.ok(goldens.length > 0));

for (const [name, { limits, cases }] of goldens) {
  test(`every count of the golden card ${name} is on the side that the core puts it`, () => {
    for (const each of cases) {
      const { line, floor = null, plants, insects, squares, lost = 0, blasted = 0 } = each;
      assert.deepEqual(
        sides(limits, { line, floor }, { plants, insects, squares, lost, blasted }),
        { insects: each.insect_side, squares: each.square_side, verdict: each.lean },
        JSON.stringify(each),
      );
    }
  });
}
