import { apparentWind, beaufortOf, DEFAULT_HOUSE } from 'windwardrobe';
import beaufort from '../../truth/beaufort.json' with { type: 'json' };
import gust from '../../truth/gust.json' with { type: 'json' };
import wind from '../../truth/wind.json' with { type: 'json' };
import { apartDeg } from './compare.mjs';

/** Apparent wind against a published test set, plotted examples and triangles worked out. */
export function windRows() {
  const testSet = {
    comparedWith: 'test set of Smith, Bourassa & Sharp 1999, J. Atmos. Oceanic Technol. 16, 939',
    strength: wind.coaps.about.strength,
  };
  const coaps = wind.coaps.rows.map((row) => ({
    row,
    felt: apparentWind(row.trueSpeed, row.trueFromDeg - row.courseDeg, row.groundSpeed),
  }));
  const plotted = {
    comparedWith: "examination and manual examples worked on a plotting board (one ship's speed from memory)",
    strength: wind.printed.about.strength,
  };
  const triangles = { comparedWith: 'triangles worked out by the formula', strength: wind.formula.about.strength };
  const exact = wind.formula.rows.map((row) => ({ row, felt: apparentWind(row.twsKn, row.twaDeg, row.stwKn) }));
  const board = wind.printed.rows.map((row) => ({
    row,
    felt: apparentWind(row.twsKn, row.twdDeg - row.headingDeg, row.stwKn),
  }));
  return [
    {
      id: 'apparent-speed-test-set',
      quantity: 'Apparent wind: speed',
      ...testSet,
      unit: 'kn',
      errors: coaps.map(({ row, felt }) => felt.awsKn - row.apparentSpeed),
      ceiling: 1e-9,
      shownFrom: 1e-9,
      why: "the set's own tolerance: its answers carry 16 digits",
    },
    {
      id: 'apparent-angle-test-set',
      quantity: 'Apparent wind: angle',
      ...testSet,
      unit: '°',
      errors: coaps
        .filter(({ row }) => row.noDirection === undefined)
        .map(({ row, felt }) => apartDeg(felt.awaDeg + row.courseDeg - row.headingDeg, row.apparentOffBowDeg)),
      ceiling: 1e-6,
      shownFrom: 1e-6,
      why: "the set's own tolerance",
    },
    {
      id: 'apparent-speed-printed',
      quantity: 'Apparent wind: AWS',
      ...plotted,
      unit: 'kn',
      errors: [
        ...board.map(({ row, felt }) => felt.awsKn - row.awsKn),
        ...wind.printedAws.rows.map((row) => feltAt(row).awsKn - row.awsKn),
      ],
      ceiling: 0.7,
      why: 'plotted on a board: 0.3 to 0.7 kn by the sources themselves',
    },
    {
      id: 'apparent-angle-printed',
      quantity: 'Apparent wind: AWA',
      ...plotted,
      unit: '°',
      errors: board.map(({ row, felt }) => apartDeg(felt.awaDeg, row.awaDeg)),
      ceiling: 1,
      why: 'plotted on a board, and true wind printed to a knot and a degree',
    },
    {
      id: 'apparent-speed-triangles',
      quantity: 'Apparent wind: AWS',
      ...triangles,
      unit: 'kn',
      errors: exact.map(({ row, felt }) => felt.awsKn - row.awsKn),
      ceiling: 0.00005,
      why: 'rounded to four places',
    },
    {
      id: 'apparent-angle-triangles',
      quantity: 'Apparent wind: AWA',
      ...triangles,
      unit: '°',
      errors: exact.map(({ row, felt }) => apartDeg(felt.awaDeg, row.awaDeg)),
      ceiling: 0.00005,
      why: 'rounded to four places',
    },
  ];
}

/** The apparent wind where the apparent angle is given. The true wind outruns the boat, so AWA rises with TWA. */
function feltAt({ twsKn, stwKn, awaDeg }) {
  let [low, high] = [0, 180];
  for (let step = 0; step < 50; step += 1) {
    const middle = (low + high) / 2;
    if (apparentWind(twsKn, middle, stwKn).awaDeg < awaDeg) low = middle;
    else high = middle;
  }
  return apparentWind(twsKn, high, stwKn);
}

/** Beaufort numbers and the gust factor against the tables they are taken from. */
export function beaufortAndGustRows() {
  return [
    {
      id: 'beaufort-printed',
      quantity: 'Beaufort number: lowest and highest knots of every row',
      comparedWith: 'WMO Beaufort equivalents (WMO-No. 306), at second hand',
      strength: beaufort.table.about.strength,
      unit: '',
      errors: beaufort.table.rows.flatMap((row) =>
        [row.lowestKn, row.highestKn].filter((kn) => kn !== null).map((kn) => beaufortOf(kn) - row.beaufort),
      ),
      ceiling: 0,
      why: 'a table look-up is right or wrong',
    },
    {
      id: 'beaufort-formula',
      quantity: 'Beaufort number: middle of every row',
      comparedWith: 'WMO formula of 1946, v = 0.836·B^1.5',
      strength: beaufort.formula.about.strength,
      unit: '',
      errors: beaufort.formula.rows.map((row) => beaufortOf(row.windKn) - row.beaufort),
      ceiling: 0,
      why: 'a table look-up is right or wrong',
    },
    {
      id: 'gust-factor',
      quantity: 'Gust factor where the forecast has no gusts',
      comparedWith: 'Harper, Kepert & Ginger 2010, WMO/TD-1555, table 1.1: 3 s over an hour at sea, at second hand',
      strength: gust.overAnHour.about.strength,
      unit: '',
      errors: gust.overAnHour.rows.map((row) => DEFAULT_HOUSE.gustFactor - row.atSea),
      ceiling: 0.005,
      why: 'printed to 0.01; how well any one factor fits a gust is not measured here',
    },
  ];
}
