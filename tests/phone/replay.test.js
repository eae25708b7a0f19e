import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { test } from 'node:test';
import { replay } from '../../src/quarterwalk/phone/replay.js';
import { DEVICE, OPENED, OTHER, WALK, WEN, checked, journal } from './made.js';

const GOLDEN = new URL('../journals/', import.meta.url);
const names = JSON.parse(readFileSync(new URL('names.json', GOLDEN), 'utf8'));
const goldens = readdirSync(GOLDEN).filter((name) => name.endsWith('.ndjson'));

const or = (value) => value ?? null;

function checkAsHeld({ device, seq, by, kind, body }) {
  const { insects, squares } = body;
  return {
    device, seq, quadrant: body.quadrant, stop: or(body.stop), plant: body.plant,
    adults: or(insects?.adults), nymphs: or(insects?.nymphs),
    healthy: or(squares?.healthy), missing: or(squares?.missing),
    blasted: or(squares?.blasted), flared: or(squares?.flared),
    sweeps: or(body.sweeps), skipped: kind === 'plant-skipped', why: or(body.why),
    scout: body.scout ?? names[by] ?? by, note: or(body.note),
  };
}

const noteAsHeld = ({ device, seq, body }) => ({
  device, seq, quadrant: body.quadrant, lost: or(body.lost), water: or(body.water),
  other_pests: or(body.other_pests), branches: or(body.branches), note: or(body.note),
});

const pair = (key) => [key.slice(0, key.lastIndexOf('-')), Number(key.slice(key.lastIndexOf('-') + 1))];

const asHeld = (record) => ({
  id: record.walk,
  state: record.state,
  field: or(record.opened?.body.field),
  on: or(record.on),
  waiting: record.waiting,
  checks: record.checks.map(checkAsHeld),
  doubled: record.doubled.map(pair),
  quadrant_notes: record.quadrants.map(noteAsHeld),
});

/** Order entries in another way, the same each time. */
const shuffled = (list, step) => list.map((_, i) => list[(i * step + 3) % list.length]);

test('there are golden journals', () => assert.ok(goldens.length > 0));

for (const name of goldens) {
  test(`the golden journal ${name} replays to the record that the office has`, () => {
    const text = readFileSync(new URL(name, GOLDEN), 'utf8');
    const expected = JSON.parse(readFileSync(new URL(name.replace('.ndjson', '.expected.json'), GOLDEN), 'utf8'));
    const entries = text.trim().split('\n').map((line) => JSON.parse(line));
    assert.deepEqual(asHeld(replay(entries, expected.id)), expected);
    assert.deepEqual(asHeld(replay([...entries].reverse(), expected.id)), expected);
    assert.deepEqual(asHeld(replay([...entries, ...entries], expected.id)), expected);
  });
}

test('a strike takes a plant back, and a strike of the strike brings it again', () => {
  const said = [OPENED, checked(1, 1), checked(1, 2), ['struck', { seq: 3 }]];
  const seqs = (entries) => replay(entries, WALK).checks.map(({ seq }) => seq);
  assert.deepEqual(seqs(journal(said)), [2]);
  assert.deepEqual(seqs(journal([...said, ['struck', { seq: 4 }]])), [2, 3]);
});

test('the order in which entries come changes nothing', () => {
  const entries = journal([OPENED, checked(1, 1), checked(1, 2), ['struck', { seq: 3 }], checked(1, 2)]);
  const whole = replay(entries, WALK);
  for (const step of [1, 2, 3, 4]) assert.deepEqual(replay(shuffled(entries, step), WALK), whole);
});

test('a walk waits for what was told of and is not here, and no longer', () => {
  const own = journal([OPENED, checked(1, 1), ['walk-closed', { entries: { [DEVICE]: 3, [OTHER]: 2 } }]]);
  assert.equal(replay(own, WALK).waiting, 2);
  const others = journal([checked(2, 1), checked(2, 2)], { device: OTHER, by: WEN, from: 70 });
  assert.equal(replay([...others, ...own], WALK).waiting, 0);
});

test('a walk without its opening is unopened, with a struck one void', () => {
  assert.equal(replay(journal([OPENED, checked(1, 1)]).slice(1), WALK).state, 'unopened');
  assert.equal(replay(journal([OPENED, ['struck', { seq: 1 }]]), WALK).state, 'void');
});
