/** The words of the trade and of every screen. */

export const many = (count, one, more) => (count === 1 ? `${count} ${one}` : `${count} ${more}`);

export const QUARTERS = {
  NW: 'north-west quarter',
  NE: 'north-east quarter',
  SW: 'south-west quarter',
  SE: 'south-east quarter',
};

export const LOOPS = { 1: 'first loop', 2: 'second loop', 3: 'third loop' };

export const OUTCOMES = {
  hold: 'Hold',
  'look-sooner': 'Look sooner',
  treat: 'Treat',
  none: 'No reading',
};

export const SQUARES = {
  healthy: 'healthy',
  missing: 'missing',
  blasted: 'blasted',
  flared: 'flared',
};

export const common = {
  demo: 'Demo',
  back: 'Back',
  insectsPer100: 'insects per 100',
  squareSet: 'square set',
  noFigure: 'no figure yet',
  line: ({ line }) => `line ${line}`,
  floor: ({ floor }) => `floor ${floor}`,
  plants: ({ count }) => many(count, 'plant', 'plants'),
  unsent: ({ count }) => `${count} not sent`,
  insects: ({ insects, plants }) =>
    `${many(insects, 'insect', 'insects')} on ${many(plants, 'plant', 'plants')}`,
};
