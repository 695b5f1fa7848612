/** Gauss–Legendre rules on [−1, 1] by Newton on the Legendre polynomial (Press et al., Numerical Recipes, §4.5; value from memory). */

export interface QuadratureRule {
  readonly nodes: readonly number[];
  readonly weights: readonly number[];
}

const rules = new Map<number, QuadratureRule>();

/** The rule with `count` nodes (exact to degree 2·count − 1), nodes rising, symmetric to the last bit. */
export function gaussLegendre(count: number): QuadratureRule {
  if (!(Number.isInteger(count) && count >= 1 && count <= 512)) {
    throw new RangeError(`gaussLegendre count ${count}: allowed is a whole number from 1 to 512`);
  }
  const ready = rules.get(count) ?? makeRule(count);
  rules.set(count, ready);
  return ready;
}

function makeRule(count: number): QuadratureRule {
  const nodes = new Array<number>(count).fill(0);
  const weights = new Array<number>(count).fill(0);
  for (let index = 0; index < (count + 1) >> 1; index++) {
    let x = Math.cos((Math.PI * (index + 0.75)) / (count + 0.5));
    let derivative = 1;
    for (let turn = 0; turn < 100; turn++) {
      let before = 1;
      let value = x;
      for (let degree = 2; degree <= count; degree++) {
        const next = ((2 * degree - 1) * x * value - (degree - 1) * before) / degree;
        before = value;
        value = next;
      }
      if (count === 1) before = 1;
      derivative = (count * (x * value - before)) / (x * x - 1);
      const move = value / derivative;
      x -= move;
      if (Math.abs(move) < 1e-16) break;
    }
    const middle = 2 * index + 1 === count;
    if (middle) x = 0;
    const weight = 2 / ((1 - x * x) * derivative * derivative);
    nodes[index] = middle ? 0 : -x;
    nodes[count - 1 - index] = x;
    weights[index] = weight;
    weights[count - 1 - index] = weight;
  }
  return { nodes, weights };
}
