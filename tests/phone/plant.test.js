import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  carriedOver, checkedBody, freshPlant, isMarked, isWhole, plantAgain, withInsects, withSquareTapped, withSquares,
} from '../../src/quarterwalk/phone/plant.js';
import { OPENED, WALK, card, checked, journal } from './made.js';

const place = { ...card.stops[0], plant: 1 };
const fresh = (squares) => freshPlant(WALK, place, squares);

test('at a fresh stop the number of squares is unknown until it is said', () => {
  const plant = fresh({ asked: true, carried: null });
  assert.ok(!isWhole(plant));
  assert.ok(isWhole(withSquares(plant, 0)));
  assert.equal(withSquares(plant, 4).squares.length, 4);
});

test('once said, the number goes up and down by one, and stays from 0 to 12', () => {
  const plant = withSquares(fresh({ asked: true, carried: null }), 12);
  assert.equal(withSquares(plant, 1).squares.length, 12);
  assert.equal(withSquares(plant, -1).squares.length, 11);
});

test('a tap takes a square through healthy, missing, blasted, flared and round again', () => {
  let plant = fresh({ asked: true, carried: 2 });
  const seen = [0, 1, 2, 3].map(() => (plant = withSquareTapped(plant, 1)).squares[1]);
  assert.deepEqual(seen, ['missing', 'blasted', 'flared', 'healthy']);
});

test('a plant with an insect or a lost square is marked, one with healthy squares is clean', () => {
  const plant = fresh({ asked: true, carried: 2 });
  assert.ok(!isMarked(plant));
  assert.ok(isMarked(withInsects(plant, 'nymphs', 1)));
  assert.ok(isMarked(withSquareTapped(plant, 0)));
});

test('insects stay from 0 to 99', () => {
  const plant = fresh({ asked: false, carried: null });
  assert.equal(withInsects(plant, 'adults', -1).adults, 0);
  assert.equal(withInsects(plant, 'adults', 120).adults, 99);
});

test('what was not looked at is not written', () => {
  assert.deepEqual(checkedBody(fresh({ asked: false, carried: null }), place), {
    quadrant: 'NW', stop: 1, plant: 1, insects: { adults: 0, nymphs: 0 },
  });
});

test('no squares is written as counted and none', () => {
  const { squares } = checkedBody(withSquares(fresh({ asked: true, carried: null }), 0), place);
  assert.deepEqual(squares, { healthy: 0, missing: 0, blasted: 0, flared: 0 });
});

test('the number carries over within a stop and no further', () => {
  const checks = journal([OPENED, checked(1, 1, { squares: { healthy: 3, flared: 1 } }), checked(1, 2)]).slice(1);
  assert.equal(carriedOver(checks, 1), 4);
  assert.equal(carriedOver(checks, 2), null);
});

test('a plant taken back comes up again as it was counted', () => {
  const [, entry] = journal([OPENED, checked(1, 1, { adults: 2, squares: { healthy: 1, missing: 1 } })]);
  const plant = plantAgain(WALK, entry, true);
  assert.deepEqual(checkedBody(plant, place), entry.body);
});
