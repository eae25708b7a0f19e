/** What is said from the first plant to the last. */
import { LOOPS, QUARTERS, SQUARES, common, many } from './names.js';

export const plant = {
  title: ({ plant }) => `Plant ${plant}`,
  place: ({ quadrant, number, of }) => `${quadrant} · ${number} of ${of}`,
  stop: ({ stop }) => `stop ${stop}`,
  newStop: 'new stop',
  where: 'Where',
  leave: 'Leave the walk for now',
  quarter: ({ quadrant, checked, done }) =>
    `${QUARTERS[quadrant]}: ${many(checked, 'plant', 'plants')} checked, ${done} of 5 stops done`,
  here: 'you are here',
  quarters: 'Progress by quarter',
  standing: 'See how it stands',
  squares: ({ count }) => many(count, 'square', 'squares'),
  noSquares: 'no squares',
  change: 'tap one to change it',
  howMany: 'How many squares?',
  count: 'Count them on this plant.',
  fresh: 'New stop: count them afresh.',
  squaresOn: ({ count }) => `${many(count, 'square', 'squares')} on this plant`,
  fewer: 'One square fewer',
  more: 'One square more',
  noCount: 'Insects only on this plant.',
  branch: ({ branch, state }) => `Branch ${branch}, ${SQUARES[state]}`,
  adults: ({ count }) => (count === 1 ? 'adult' : 'adults'),
  nymphs: ({ count }) => (count === 1 ? 'nymph' : 'nymphs'),
  oneLess: ({ what }) => `One ${what} fewer`,
  oneMore: ({ what }) => `One ${what} more`,
  undo: 'Undo',
  clean: 'Clean, next',
  save: 'Save, next',
  saving: 'Saving…',
  readOnly: 'Only reads here',
  readOnlyHow: 'Go on in the other window.',
  saved: ({ plants, insects }) =>
    plants === 0
      ? ''
      : `Plant ${plants} saved. ${common.insects({ insects, plants })}.`,
  other: 'Can’t check this plant',
  skip: { hailed: 'Hailed out', 'cut-off': 'Cut off', 'no-plant': 'No plant here', other: 'Another reason' },
  note: ({ quadrant }) => `Notes on the ${QUARTERS[quadrant]}`,
};

export const where = {
  title: ({ stop }) => `Stop ${stop}`,
  place: ({ quadrant, loop }) => `${QUARTERS[quadrant]} · ${LOOPS[loop] ?? `loop ${loop}`}`,
  noSketch: 'No sketch on this phone.',
  noSketchHow: 'Walk by the stop’s words below.',
  at: ({ stop }) => `I am at stop ${stop}`,
  ringed: 'Your stop is the ringed one.',
};

export const standing = {
  title: 'How it stands',
  after: ({ field, count }) => `${field} · after ${many(count, 'plant', 'plants')}`,
  leaning: 'Leaning to',
  noLean: 'Leaning nowhere yet',
  sides: {
    insects: { few: 'few', middle: 'between few and near', near: 'near the line', over: 'at or over the line' },
    squares: {
      'not-asked': 'not asked for',
      'not-readable': 'too few squares to judge by',
      fine: 'at or above the floor',
      under: 'under the floor',
      'well-under': 'well under the floor',
    },
  },
  checked: ({ count }) => `${count} checked`,
  bar: ({ checked, full }) => `${checked} of ${full} plants checked`,
  goOn: 'Go on walking',
  stop: 'Stop here',
  finish: 'Finish walk',
};

export const note = {
  title: ({ quadrant }) => `${QUARTERS[quadrant][0].toUpperCase()}${QUARTERS[quadrant].slice(1)}`,
  subtitle: ({ field }) => `${field} · once a quarter`,
  lost: 'Which squares are lost?',
  lostAre: { none: 'None', small: 'Small', large: 'Large', both: 'Both' },
  water: 'Standing water?',
  waterIs: { true: 'Yes', false: 'No' },
  pests: 'Other pests?',
  pestsAre: { none: 'None', some: 'Some', many: 'Many' },
  branches: 'Fruiting branches on five plants',
  onPlant: ({ plant }) => `Plant ${plant}`,
  fewer: ({ plant }) => `Plant ${plant}: one branch fewer`,
  more: ({ plant }) => `Plant ${plant}: one branch more`,
  notCounted: 'not counted',
  text: 'Anything else',
  save: 'Save notes',
  later: 'Later',
};
