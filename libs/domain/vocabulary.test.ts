import { expect, test } from "@jest/globals";
import { solvents, type Solvent } from "./vocabulary.ts";

const celsius = 25;
const mmHgPerKpa = 7.500_616;

/**
 * Vapour pressures at 25 °C in mmHg by Antoine's equation. Constants of the organic solvents:
 * Smith, Van Ness, Abbott, table B.2, ln(P/kPa) = A - B / (t/°C + C). Of water: Reid, Prausnitz,
 * Sherwood, 3rd edition, appendix A, ln(P/mmHg) = A - B / (T/K + C).
 */
const pressures: Record<Solvent, { mmHg: number; published: number }> = {
  acetone: { mmHg: antoineKpa(14.3145, 2756.22, 228.06) * mmHgPerKpa, published: 229.963 },
  ethanol: { mmHg: antoineKpa(16.8958, 3795.17, 230.918) * mmHgPerKpa, published: 59.214 },
  "tert-butanol": { mmHg: antoineKpa(14.8445, 2658.29, 177.65) * mmHgPerKpa, published: 42.176 },
  water: { mmHg: Math.exp(18.3036 - 3816.44 / (celsius + 273.15 - 46.13)), published: 23.575 },
};

function antoineKpa(a: number, b: number, c: number): number {
  return Math.exp(a - b / (celsius + c));
}

test("solvents stand in the order in which they leave, by their vapour pressure", () => {
  const byPressure = [...solvents].sort((a, b) => pressures[b].mmHg - pressures[a].mmHg);
  expect(byPressure).toEqual([...solvents]);
  for (const { mmHg, published } of Object.values(pressures)) {
    expect(mmHg).toBeCloseTo(published, 1);
  }
});
