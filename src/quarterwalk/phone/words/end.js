/** What is said when a walk ends or changes hands. */

export const finish = {
  title: 'Finish the walk?',
  whole: 'Every quarter is walked.',
  short: 'Something is still open:',
  after: 'Your counts go to the office. The office makes the call.',
  close: 'Close the walk',
  goOn: 'Go on walking',
  hand: 'Hand over to another scout',
};

export const call = {
  unconfirmed: 'To be confirmed by the office',
  office: 'The office’s call',
  provisional: 'The office’s call, for now',
  own: 'Your counts lean to',
  noLean: 'Your counts lean nowhere yet.',
  sure: 'How sure',
  again: 'Next look',
  sureness: { clear: 'Clear', close: 'Close', "can't tell": 'Can’t tell' },
  care: 'Take care',
  why: 'Why',
  guideline: 'Guideline',
  whoDecides: 'The grower decides. The label and local rules prevail.',
  sent: 'Sent to the office.',
  notSent: 'Not sent yet. It is safe on this phone.',
  note: 'Note for the office',
  addNote: 'Save note',
  done: 'Done',
  reopen: 'Walk more',
};

export const handover = {
  title: 'Hand over',
  who: 'Who goes on?',
  same: 'On this phone',
  other: 'On another phone',
  otherHow: 'The other phone reads a code from this screen.',
  show: 'Show the code',
  scan: 'Point the other phone’s camera at it.',
  qr: 'Code to go on with this walk on another phone',
  orType: 'Or type this on the other phone:',
  goesOn: ({ name }) => `${name} goes on.`,
  goesOnHow: ({ name }) => `From now on plants are counted by ${name}.`,
  goOn: ({ name }) => `Go on as ${name}`,
  alone: 'Nobody else of your district is on this phone.',
};

export const take = {
  title: 'Take over',
  question: ({ field, from }) => `Go on with ${field} from ${from}?`,
  soFar: 'So far',
  act: 'Go on with the walk',
};
