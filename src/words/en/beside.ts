/** Two players side by side; fetched with the choice of the other one. \u00a0 keeps a number with its unit. */
export const BESIDE = {
  beside: 'beside',
  nobody: 'nobody',
  notFound: 'That player is no longer kept here, or cannot be read.',
  notComputed: '{name} cannot be shown: the record cannot be computed.',
  hasNoNote: 'Has no {note}: stands still.',
  otherHasNoNote: '{name} has no {note} and stands still.',
  nothingShared: 'The two have no note in common, so there is nothing to compare.',

  // What the rim does between two notes, as a clause of `fromTo`.
  rimStays: 'the rim stays where it is',
  rimGoes: 'the rim goes {parts}',
  travelUp: '{mm}\u00a0mm {way, select, plus {up} other {down}}',
  travelSide: '{mm}\u00a0mm to the {way, select, plus {right} other {left}}',
  fromTo: '{named, select, yes {From {from}} other {From home}} to {to} {rim}; {swing}.',
  differ:
    'Between the two: {upMm}\u00a0mm of travel up and down and {rightMm}\u00a0mm sideways, {elevation}° of swing up and down and {lateral}° sideways.',
} as const;
