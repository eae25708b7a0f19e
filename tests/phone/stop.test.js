import assert from 'node:assert/strict';
import { test } from 'node:test';
import { closingBody } from '../../src/quarterwalk/phone/acts/walk.js';
import { plantActs } from '../../src/quarterwalk/phone/acts/plant.js';
import { foldWalk } from '../../src/quarterwalk/phone/fold.js';
import { freshPlant } from '../../src/quarterwalk/phone/plant.js';
import { firstState } from '../../src/quarterwalk/phone/state.js';
import { rowFor, sideOf } from '../../src/quarterwalk/phone/stop.js';
import { views } from '../../src/quarterwalk/phone/views/index.js';
import { DEVICE, FIELD, JOSS, OPENED, WALK, card, checked, journal, skipped, walkOf } from './made.js';

const HASH = 'a'.repeat(64);
const AT = '2026-07-01T09:41:07.250-05:00';
const PLAN = 'b'.repeat(64);

/** Squares, then few insects, few lost, few together, then many insects and many lost. */
const ROWS = [
  [40, 4, 2, 8, 14, 12],
  [80, 5, 6, 14, 13, 20],
];
const look = (more) => ({ plants: 40, a_quarter: 10, loop: 1, rows: ROWS, more: ROWS.map(() => [60, 31]), ...more });
const plan = (more) => ({ week: 2, hash: PLAN, squares: true, bar: 'lost', looks: [look()], ...more });
const ofInsects = (more) => plan({ squares: false, bar: null, looks: [look({ rows: [[0, 4, -1, -1, 12, 0]], more: [[60, 25]] })], ...more });

/** So many plants of a walk with so much on them, two squares a plant as long as there are some. */
function walkWith({ plants = 40, insects = 0, squares = 0, lost = 0, blasted = 0 }) {
  let [left, gone, dead] = [squares, lost, blasted];
  return walkOf(plants).map(([, body], i) => {
    const here = Math.min(2, left);
    const missing = Math.min(here, gone);
    const burnt = Math.min(here - missing, dead);
    [left, gone, dead] = [left - here, gone - missing, dead - burnt];
    const found = { healthy: here - missing - burnt, missing, blasted: burnt };
    return checked(body.stop, body.plant, { adults: i < insects ? 1 : 0, ...(squares ? { squares: found } : {}) });
  });
}

function state(said, plans = [plan()], more = {}) {
  const held = { ...card, ...(plans ? { plans } : {}), ...more };
  const walk = foldWalk(journal([OPENED, ...said]), { walk: WALK, device: DEVICE, person: JOSS, card: held });
  return {
    ...firstState(), at: AT, now: Date.parse(AT), canWrite: true, screen: 'plant',
    pairing: { device: DEVICE, person: { id: JOSS, name: 'Joss Verel' }, district: { id: 'd', name: 'North', demo: false } },
    day: { fields: [{ id: FIELD, name: 'Windmill 80', card: HASH }], scouts: [], district: { demo: false } },
    cards: { [HASH]: held }, walks: { [WALK]: walk }, walkId: WALK,
    plant: freshPlant(WALK, walk.next, { asked: false, carried: null }),
  };
}

const told = (said, plans, more) => {
  const { title, words, full, lean } = views.standing(state(said, plans, more));
  return { title, words, full, lean };
};
const side = (insects, lost, squares) => sideOf(ROWS, { insects, lost, squares });

test('at a row its own limits stand', () => {
  assert.deepEqual(ROWS.map(([squares]) => rowFor(ROWS, squares)), ROWS);
});

test('between two rows what is few enough lies on the straight line between them, rounded down', () => {
  assert.deepEqual([41, 50, 60, 79].map((squares) => rowFor(ROWS, squares).slice(0, 4)), [
    [41, 4, 2, 8], [50, 4, 3, 9], [60, 4, 4, 11], [79, 4, 5, 13],
  ]);
  assert.deepEqual([side(4, 30, 79).what, side(5, 30, 79).what, side(5, 30, 80).what], ['insects', null, 'insects']);
  assert.deepEqual([side(30, 5, 79).what, side(30, 6, 79).what, side(30, 6, 500).what], ['lost', null, 'lost']);
  assert.deepEqual([side(5, 8, 79).what, side(5, 9, 79).what], ['sum', null]);
});

test('between two rows what is enough to treat is rounded up', () => {
  assert.deepEqual([41, 50, 60, 79].map((squares) => rowFor(ROWS, squares).slice(4)), [[14, 13], [14, 14], [14, 16], [14, 20]]);
  assert.deepEqual([side(14, 12, 40).side, side(14, 12, 41).side, side(14, 13, 41).side], ['treat', 'go-on', 'treat']);
  assert.deepEqual([side(13, 20, 79).side, side(14, 20, 79).side, side(13, 20, 80).side], ['go-on', 'treat', 'treat']);
  assert.deepEqual([side(12, 40, 80).side, side(13, 19, 80).side], ['go-on', 'go-on']);
});

test('limits that fall from row to row are rounded down and up alike', () => {
  const falling = [[40, 5, 6, 14, 13, 20], [80, 4, -1, 8, 12, 12]];
  assert.deepEqual(rowFor(falling, 41), [41, 4, 5, 13, 13, 20]);
  assert.deepEqual(rowFor(falling, 79), [79, 4, -1, 8, 13, 13]);
});

test('where only one of two rows treats, none between them does, and the lower limits are the first one’s', () => {
  for (const [first, last] of [[[null, null], [13, 20]], [[14, 12], [null, null]]]) {
    const rows = [[40, 4, 2, 8, ...first], [80, 5, 6, 14, ...last]];
    assert.deepEqual(rowFor(rows, 60), [60, 4, 2, 8, null, null]);
    assert.equal(sideOf(rows, { insects: 99, lost: 60, squares: 60 }).side, 'go-on');
  }
});

test('with fewer squares than the first row, and past the last row to treat, the walk goes on', () => {
  assert.equal(side(0, 0, 39).side, 'go-on');
  assert.equal(side(99, 39, 39).side, 'go-on');
  assert.equal(side(99, 81, 81).side, 'go-on');
  assert.equal(rowFor(ROWS, 39), null);
  assert.deepEqual(rowFor(ROWS, 81), [81, 5, 6, 14, null, null]);
});

test('no number is enough where there is no limit', () => {
  assert.equal(sideOf([[0, -1, -1, -1, null, null]], { insects: 0, lost: 0, squares: 0 }).side, 'go-on');
  assert.equal(sideOf([[0, -1, -1, -1, null, null]], { insects: 99, lost: 0, squares: 0 }).side, 'go-on');
});

test('so few insects end the walk at the end of the first loop', () => {
  const { title, words, full, lean } = told(walkWith({ insects: 4, squares: 78, lost: 20 }));
  assert.deepEqual([title, full, lean], ['You may stop here', true, 'look-sooner']);
  assert.equal(words[0], '4 insects on 40 plants are few enough.');
  assert.ok(!words.includes('With so few plants the call stays for now.'));
});

test('so few lost squares end it, and so few of both together', () => {
  assert.deepEqual(told(walkWith({ insects: 12, squares: 78, lost: 5 })).words, ['5 lost of 78 squares are few enough.']);
  assert.deepEqual(told(walkWith({ insects: 7, squares: 78, lost: 6 })).words, ['Insects and lost squares together are few enough.']);
});

test('where the walk may end no more squares are asked for', () => {
  assert.deepEqual(told(walkWith({ insects: 4, squares: 48, lost: 9 })).words, ['4 insects on 40 plants are few enough.']);
});

test('one, and none, are told as one and none', () => {
  assert.equal(told(walkWith({ insects: 1, squares: 78, lost: 9 })).words[0], '1 insect on 40 plants is few enough.');
  assert.equal(told(walkWith({ squares: 78, lost: 9 })).words[0], 'No insects on 40 plants.');
  assert.equal(told(walkWith({ insects: 12, squares: 78 })).words[0], 'None lost of 78 squares.');
});

test('so much of both ends it too, where a plan lets a walk end to treat', () => {
  const { title, words, full, lean } = told(walkWith({ insects: 13, squares: 80, lost: 20 }));
  assert.deepEqual([title, words, full, lean], ['You may stop here', ['Both are high enough.'], true, 'treat']);
});

test('to treat, a walk does not end on squares that are too few to judge by', () => {
  const { title, lean } = told(walkWith({ insects: 14, squares: 40, lost: 12 }));
  assert.deepEqual([side(14, 12, 40).side, title, lean], ['treat', 'Go on: the second loop', 'look-sooner']);
});

test('where insects decide alone squares are not looked at', () => {
  assert.deepEqual(told(walkWith({ insects: 4 }), [ofInsects()]).title, 'You may stop here');
  assert.equal(told(walkWith({ insects: 12, squares: 78 }), [ofInsects()]).words[0], '12 insects on 40 plants are enough.');
  assert.equal(told(walkWith({ insects: 5 }), [ofInsects()]).title, 'Go on: the second loop');
});

test('where blasted squares count, other lost ones do not', () => {
  const ofBlasted = [plan({ bar: 'blasted' })];
  assert.equal(told(walkWith({ insects: 12, squares: 78, lost: 20, blasted: 5 }), ofBlasted).words[0], '5 blasted of 78 squares are few enough.');
  assert.equal(told(walkWith({ insects: 12, squares: 78, blasted: 6 }), ofBlasted).title, 'Go on: the second loop');
});

test('in between the walk goes on, and how far is told', () => {
  const { title, words, full } = told(walkWith({ insects: 9, squares: 78, lost: 9 }));
  assert.deepEqual([title, words[0], full], ['Go on: the second loop', 'About 60 more plants, 31 minutes.', false]);
  const { standingWords } = views.plant(state(walkWith({ insects: 9, squares: 78, lost: 9 })));
  assert.equal(standingWords, 'Leaning to look sooner. Go on: the second loop.');
});

test('what is ahead is read in the row of the squares, the first one where there are fewer', () => {
  const more = [[60, 31], [60, 33]];
  const ahead = (squares) => told(walkWith({ insects: 9, squares, lost: 9 }), [plan({ looks: [look({ more })] })]).words[0];
  assert.deepEqual([30, 79, 80].map(ahead), [31, 31, 33].map((minutes) => `About 60 more plants, ${minutes} minutes.`));
});

test('the short line beside the next plant says that the walk may end', () => {
  const { standingWords } = views.plant(state(walkWith({ insects: 2, squares: 78 })));
  assert.equal(standingWords, 'Leaning to hold. You may stop here.');
});

test('before the loop is walked, and past its end, it stands as without a plan', () => {
  for (const plants of [20, 39, 41, 100]) {
    const said = walkWith({ plants, insects: 2, squares: 78 });
    assert.deepEqual(told(said), told(said, null), String(plants));
  }
});

test('as many plants in all are not enough: each quarter must have its own', () => {
  const twelfth = [...walkOf(39), checked(8, 6)].filter(([, { stop, plant }]) => !(stop === 1 && plant === 5));
  const uneven = [...twelfth, checked(8, 7)];
  assert.equal(uneven.length, 40);
  assert.equal(told(uneven).title, '60 more to a full walk');
});

test('plants passed over do not count', () => {
  const said = [...walkWith({ plants: 39, insects: 2, squares: 78 }), skipped(8, 5)];
  assert.equal(told(said).title, 'No stop yet: 1 more for a small walk.');
  assert.equal(told([...said, checked(8, 6)]).title, 'You may stop here');
});

const WEEKS = { weeks: [{ ...card.weeks[1], week: 1, floor: 0.9 }, card.weeks[1]] };
const first = (limits) => plan({ week: 1, hash: 'c'.repeat(64), looks: [look({ rows: [limits], more: [[60, 40]] })] });

test('where it may be either of two weeks, a walk may end where one plan answers both', () => {
  const said = walkWith({ insects: 4, squares: 78, lost: 20 });
  const same = told(said, [{ ...plan(), week: 1 }, plan()], WEEKS);
  assert.deepEqual([same.title, same.words[0]], ['You may stop here', '4 insects on 40 plants are few enough.']);
  const without = told(said, null, WEEKS);
  assert.deepEqual(told(said, [first([40, 6, -1, -1, null, null]), plan()], WEEKS), without);
});

test('where one of the weeks has no plan, and where there is none, nothing is said of stopping', () => {
  const said = walkWith({ insects: 2, squares: 78 });
  const without = told(said, null, WEEKS);
  assert.equal(without.title, '60 more to a full walk');
  for (const plans of [[], [plan()], [first([40, 6, -1, -1, null, null])]]) assert.deepEqual(told(said, plans, WEEKS), without);
  assert.deepEqual(told(said, [], { weeks: [] }), told(said, null, { weeks: [] }));
});

test('a first loop of 20 plants may end a walk too, and has its lean', () => {
  const weeks = [{ ...card.weeks[1] }];
  const stops = card.stops.map((each, i) => ({ ...each, quadrant: ['NW', 'NE', 'SE', 'SW'][i % 4] }));
  const small = look({ plants: 20, a_quarter: 5, rows: [[0, 1, -1, -1, null, null]], more: [[52, 28]] });
  const plans = [ofInsects({ looks: [small] })];
  const clean = Array.from({ length: 20 }, (_, i) => ['plant-checked', {
    quadrant: stops[Math.floor(i / 5)].quadrant, stop: Math.floor(i / 5) + 1, plant: (i % 5) + 1, insects: { adults: 0, nymphs: 0 },
  }]);
  const may = told(clean, plans, { stops, weeks });
  assert.deepEqual([may.title, may.lean], ['You may stop here', 'hold']);
  const found = clean.map(([kind, body]) => [kind, { ...body, insects: { adults: 1, nymphs: 0 } }]);
  const on = told(found, plans, { stops, weeks });
  assert.deepEqual([on.title, on.words[0], on.lean], ['Go on: the second loop', 'About 52 more plants, 28 minutes.', null]);
});

test('a walk that ends where its plan lets it names the plan, any other names none', () => {
  const closing = (said, ...rest) => closingBody(state(said, ...rest)).plan;
  assert.equal(closing(walkWith({ insects: 4, squares: 78, lost: 20 })), PLAN);
  assert.equal(closing(walkWith({ insects: 13, squares: 80, lost: 20 })), PLAN);
  assert.equal(closing(walkWith({ insects: 9, squares: 78, lost: 9 })), undefined);
  assert.equal(closing(walkWith({ plants: 41, insects: 4, squares: 78, lost: 20 })), undefined);
  assert.equal(closing(walkWith({ plants: 100, squares: 78 })), undefined);
  assert.equal(closing(walkWith({ insects: 4, squares: 78 }), null), undefined);
});

test('nothing is short of a walk that may end', () => {
  const may = views.finish(state(walkWith({ insects: 4, squares: 78, lost: 20 })));
  assert.ok(may.full);
  assert.deepEqual(may.missing, ['No notes yet on NW, NE, SE and SW.']);
  const on = views.finish(state(walkWith({ insects: 9, squares: 78, lost: 9 })));
  assert.ok(on.missing.includes('60 plants short of a full walk.'));
  assert.ok(!on.full);
});

async function shownAfter(plants, plans) {
  const notes = ['NW', 'NE', 'SE', 'SW'].map((quadrant) => ['quadrant-noted', { quadrant, water: false }]);
  const before = state([...walkOf(plants - 1), ...notes], plans);
  const write = async () => {
    Object.assign(before, { walks: state([...walkOf(plants), ...notes], plans).walks });
    return {};
  };
  const acts = plantActs({ state: before, show: (change) => Object.assign(before, change), write, store: {} });
  await acts.clean();
  return before.screen;
}

test('at the end of a loop how it stands is shown before the next plant, where there is a plan', async () => {
  assert.equal(await shownAfter(40, [plan()]), 'standing');
  assert.equal(await shownAfter(39, [plan()]), 'plant');
  assert.equal(await shownAfter(41, [plan()]), 'plant');
  assert.equal(await shownAfter(40, null), 'plant');
  assert.equal(await shownAfter(100, [plan()]), 'finish');
});
