/** 97.5 % of a normal distribution lie below this many standard deviations above its mean. */
export const Z95 = 1.959963984540054;

const SERIES_BELOW = 2.5;

/** Probability that a standard normal variable lies above z, for any z; relative error below 1e-13 down to 1e-300. */
export function upperTail(z: number): number {
  if (z < 0) return 1 - upperTail(-z);
  return z < SERIES_BELOW ? 0.5 - nearMean(z) : farOut(z);
}

const density = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

/** What lies between the mean and z: the density times z + z³/3 + z⁵/(3·5) + … */
function nearMean(z: number): number {
  let term = z;
  let sum = z;
  for (let odd = 3; term > sum * 1e-17; odd += 2) {
    term *= (z * z) / odd;
    sum += term;
  }
  return sum * density(z);
}

/** Laplace's continued fraction, 1/(z + 1/(z + 2/(z + …))), from far enough inside. */
function farOut(z: number): number {
  let fraction = z;
  for (let step = 160; step > 0; step--) fraction = z + step / fraction;
  return density(z) / fraction;
}

/** The number of standard deviations that a standard normal variable stays below with a probability of more than 0 and less than 1; to 1e-12. */
export function quantile(probability: number): number {
  let low = -40;
  let high = 40;
  while (high - low > 1e-12) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (1 - upperTail(middle) < probability) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
