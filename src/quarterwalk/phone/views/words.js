/** Every sentence that the views make ready, kept together; gaps are named. */
import { LOOPS } from '../words/names.js';

const many = (count, one, more) => (count === 1 ? `${count} ${one}` : `${count} ${more}`);
const listed = (names, last = 'and') =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} ${last} ${names.at(-1)}`;

const DAYS = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'];
const MONTHS = [
  'January', 'February', 'March', 'April', 'May', 'June',
  'July', 'August', 'September', 'October', 'November', 'December',
];

/** Say a date, from its first ten letters. */
export function dayWords(iso) {
  const [year, month, day] = iso.slice(0, 10).split('-').map(Number);
  const weekday = DAYS[new Date(Date.UTC(year, month - 1, day)).getUTCDay()];
  return `${weekday} ${day} ${MONTHS[month - 1]}`;
}

/** Say a moment as it was written: the time alone where it was today. */
export const momentWords = (iso, today) =>
  iso.startsWith(today) ? iso.slice(11, 16) : `${dayWords(iso)}, ${iso.slice(11, 16)}`;

export const faults = {
  offline: 'No signal. What is on this phone is safe.',
  token: 'The office has ended the pairing of this phone. Your counts stay here. Ask for a new code.',
  office: 'The office could not answer. Your counts are safe here.',
  slow: 'Too many tries. Wait a minute.',
  size: 'The office could not take so much at once.',
  unknown: 'The office does not know that.',
  code: 'This code is unknown, used or too old. Ask for a new one.',
  card: 'A card came damaged and was not kept. Get it again.',
  store: 'This phone could not keep that. Nothing was counted. Free some room, then tap again.',
};

export const notices = {
  reader: 'Another window has this page open. This one only reads.',
  superseded: 'A newer version of this page is open in another window. Close this one.',
  lost: 'This window lost hold of the phone’s storage. Close it and open it again.',
  noStore:
    'This browser keeps nothing here, as a private window does. Open this page in an ordinary window before you walk.',
  ended: 'The office has ended the pairing of this phone. Your counts stay here.',
};

export const day = {
  fields: (count) => many(count, 'field', 'fields'),
  go: (name) => `Start ${name}`,
  goOn: (name) => `Go on with ${name}`,
  closedUntil: (when) => `Closed until ${when}`,
  oldCard: (when) => `Card from ${when}. Call before you go in.`,
  openWalk: (plants) => `Walk open, ${many(plants, 'plant', 'plants')} checked`,
  away: (plants) => `Handed over after ${many(plants, 'plant', 'plants')}`,
  walked: 'Walked today',
  noCard: 'No walk card for this field.',
  ownMethod: 'This field is counted in another way than plant by plant.',
  ios: 'Put this page on your home screen before you walk without a signal. Else this phone may clear your counts.',
  notPersisted: 'This phone has not promised to keep your counts. Send them after each walk.',
  low: 'This phone is short of room. Free some before you walk.',
};

export const gate = {
  question: 'Any spray, sign or flag since the last visit?',
  closed: (when) => `Closed until ${when}.`,
  closedSpray: (on) => `Sprayed on ${on}.`,
};

const squaresWords = { healthy: 'healthy', missing: 'missing', blasted: 'blasted', flared: 'flared' };

/** Say what an entry will write: "no insects, 4 squares healthy". */
export function writesWords(insects, squares) {
  const found = [
    ...(insects.adults ? [many(insects.adults, 'adult', 'adults')] : []),
    ...(insects.nymphs ? [many(insects.nymphs, 'nymph', 'nymphs')] : []),
  ];
  const first = found.join(', ') || 'no insects';
  if (!squares) return first;
  const counted = Object.keys(squaresWords).filter((state) => squares[state]);
  if (!counted.length) return `${first}, no squares`;
  const count = (state, i) =>
    i ? `${squares[state]} ${state}` : `${many(squares[state], 'square', 'squares')} ${state}`;
  return `${first}, ${counted.map(count).join(', ')}`;
}

export const plant = {
  undoChecked: (number, words) => `plant ${number}, ${words}`,
  undoSkipped: (stop) => `the plant passed over at stop ${stop}`,
  undoNothing: 'nothing yet',
};

export const QUARTERS = {
  NW: 'north-west quarter',
  NE: 'north-east quarter',
  SW: 'south-west quarter',
  SE: 'south-east quarter',
};

export const where = {
  leg: ({ stop, quadrant }) => `Stop ${stop}, ${QUARTERS[quadrant]}.`,
  way: ({ feet, heading }) => `${feet} feet from the last stop, to the ${heading}.`,
  wayFromGate: ({ feet, heading }) => `${feet} feet from the gate, to the ${heading}.`,
};

export const HEADINGS = [
  'north', 'north-east', 'east', 'south-east', 'south', 'south-west', 'west', 'north-west',
];

const fewEnough = (count) => `${count === 1 ? 'is' : 'are'} few enough`;

const weekWords = (week) => (week === null ? 'bloom' : `squaring week ${week}`);

export const standing = {
  noneIn: (quadrants) => `No stop yet: none checked in ${listed(quadrants)}.`,
  fewIn: (quadrants, least) => `No stop yet: fewer than ${least} plants in ${listed(quadrants)}.`,
  atLeast: (more) => `No stop yet: ${more} more for a small walk.`,
  toFull: (more) => `${more} more to a full walk`,
  full: 'A full walk',
  mayStop: 'You may stop here',
  why: {
    insects: ({ insects, plants }) =>
      insects
        ? `${many(insects, 'insect', 'insects')} on ${many(plants, 'plant', 'plants')} ${fewEnough(insects)}.`
        : `No insects on ${many(plants, 'plant', 'plants')}.`,
    lost: (sums, bar) =>
      sums[bar]
        ? `${sums[bar]} ${bar} of ${many(sums.squares, 'square', 'squares')} ${fewEnough(sums[bar])}.`
        : `None ${bar} of ${many(sums.squares, 'square', 'squares')}.`,
    sum: (_, bar) => `Insects and ${bar} squares together are few enough.`,
    treat: ({ insects, plants }, bar) =>
      bar
        ? 'Both are high enough.'
        : `${many(insects, 'insect', 'insects')} on ${many(plants, 'plant', 'plants')} are enough.`,
  },
  nextLoop: (loop) => `Go on: the ${LOOPS[loop] ?? `loop ${loop}`}`,
  ahead: ({ plants, minutes }) =>
    `About ${many(plants, 'more plant', 'more plants')}, ${many(minutes, 'minute', 'minutes')}.`,
  leaning: { hold: 'Leaning to hold.', 'look-sooner': 'Leaning to look sooner.', treat: 'Leaning to treat.' },
  squaresShort: (more) => `${many(more, 'more square', 'more squares')} needed before they can be judged.`,
  weeksDiffer: (weeks) => `It may be ${listed(weeks.map(weekWords), 'or')}, and that decides. The office settles it.`,
  noWeek: 'No squaring week of this card covers today. The office judges it.',
  few: 'With so few plants the call stays for now.',
};

export const finish = {
  none: (quadrant) => `No plants checked in the ${QUARTERS[quadrant]}.`,
  few: (quadrant, count) => `Only ${many(count, 'plant', 'plants')} in the ${QUARTERS[quadrant]}.`,
  short: (more) => `${many(more, 'plant', 'plants')} short of a full walk.`,
  noNote: (quadrants) => `No notes yet on ${listed(quadrants)}.`,
};

export const call = {
  unconfirmed: 'To be confirmed by the office',
  waiting: (count) => `Waiting for ${count} more from the other phone`,
  when: (plants, at) => `${many(plants, 'plant', 'plants')}, ${dayWords(at)}, ${at.slice(11, 16)}`,
};

export const handover = {
  counts: ({ plants, insects }) => `${many(plants, 'plant', 'plants')} checked, ${many(insects, 'insect', 'insects')} found`,
};

export const take = {
  broken: 'This link is cut or damaged. Show the code again on the other phone.',
  noCard: 'This field’s card is not on this phone. Get your fields first, then open the link again.',
  unpaired: 'Pair this phone with your office first.',
  somebody: 'the other scout',
};

export const phone = {
  used: (bytes) => `${(bytes / 1_000_000).toFixed(1)} MB`,
  unsent: 'Send your counts, or save them as a file, before you sign out.',
};
