import {
  type Band,
  CLOTH_LIVES,
  codeSailOf,
  type DayAndNight,
  type DefaultReef,
  type Figure,
  genoaOf,
  KINDS,
  type KindOfSail,
  OPERATIONS,
  reefLadder,
  SOURCES,
} from '../catalogue/catalogue.js';
import { commonConstants } from '../wear/wear.js';
import { LEGEND, lettered, limitRange, limitText, originText } from './figureText.js';
import { textTable } from './textTable.js';

const CAUTION =
  'Defaults to start from, not limits to trust: the skipper, the sailmaker and the builder of the boat know better. Limits are in the gust.';

const HEAD = ['kind', 'AWA °', 'AWS min', 'AWS max', 'true max', 'set by', 'gybe by night', 'daylight only', 'needs'];

/** The catalogue as rows of a table, the head first. */
export function tableRows(): readonly (readonly string[])[] {
  return [
    HEAD,
    ...KINDS.map(({ kind, window, setBy, gybe, daylightOnly, needsOneOf }) => [
      kind,
      `${lettered(window.awaMinDeg)}-${lettered(window.awaMaxDeg)}`,
      window.awsMinKn === undefined ? '' : lettered(window.awsMinKn),
      lettered(window.awsMaxKn, limitRange(window.awsMaxKn.value)),
      window.twsMaxKn === undefined ? '' : lettered(window.twsMaxKn),
      setBy,
      lettered(gybe.byNight, gybe.byNight.value ? 'yes' : 'no'),
      lettered(daylightOnly, daylightOnly.value ? 'yes' : 'no'),
      needsOneOf.join(' or '),
    ]),
  ];
}

/** The catalogue as a table for a terminal. */
export function tableText(): string {
  return `${CAUTION}\n\n${textTable(tableRows())}\n\nSpeeds in knots: AWS apparent, "true max" true wind, both in the gust; AWS min is the mean under which the sail collapses.\n${LEGEND}\n"windwardrobe sails KIND" shows a kind in full, --json all of it for programs.\n`;
}

/** One kind in full: every number with where it comes from. */
export function kindText(entry: KindOfSail): string {
  return [`${entry.kind}`, ...kindLines(entry).map(([label, text]) => `  ${label.padEnd(18)}${text}`), ''].join('\n');
}

/** One kind as labels and texts. */
export function kindLines(entry: KindOfSail): readonly (readonly [label: string, text: string])[] {
  const {
    window,
    alsoHeard,
    area,
    cloth,
    gybe,
    daylightOnly,
    operations,
    needsOneOf,
    reefs = [],
    bestAwaDeg,
    withMainReefs,
  } = entry;
  const line = (
    label: string,
    figure: Figure<unknown> | undefined,
    unit: string,
    value = `${figure?.value}`,
  ): [string, string][] => (figure === undefined ? [] : [[label, `${value}${unit} ${originText(figure)}`]]);
  return [
    ['what', entry.what],
    ['point of sail', entry.pointOfSail],
    ...line('AWA from', window.awaMinDeg, '°'),
    ...line('AWA to', window.awaMaxDeg, '°'),
    ...(alsoHeard === undefined
      ? []
      : [...line('also heard: from', alsoHeard.awaMinDeg, '°'), ...line('also heard: to', alsoHeard.awaMaxDeg, '°')]),
    ...line('best AWA', bestAwaDeg, '°'),
    ...line('collapses under', window.awsMinKn, ' kn AWS'),
    ...line('gust to, AWS', window.awsMaxKn, ' kn', limitText(window.awsMaxKn.value)),
    ...line('gust to, true', window.twsMaxKn, ' kn'),
    ...reefs.flatMap((reef, i) => reefLines(reef, `${entry.place === 'mast' ? 'reef' : 'furled'} ${i + 1}`)),
    ['area', `${area.rule}${area.source === undefined ? '' : ` (${area.source})`}`],
    ...line('  share', area.share, ''),
    ...Object.entries(area.measures ?? {}).flatMap(([name, figure]) => line(`  ${name}`, figure, '')),
    ...line('cloth', cloth.material, ''),
    ...line('cloth weight', cloth.weightGPerM2, ' g/m²'),
    ...lifeLines(cloth),
    ['set by', entry.setBy],
    ...OPERATIONS.flatMap((name): [string, string][] => {
      const operation = operations[name];
      return operation === undefined ? [] : [[WORDS[name], operationText(operation)]];
    }),
    ['gybe', `${gybe.minutes.value} min, ${gybe.hands.value} hands ${originText(gybe.minutes)}`],
    ...line('gybe by night', gybe.byNight, '', gybe.byNight.value ? 'yes' : 'no'),
    ...line('daylight only', daylightOnly, '', daylightOnly.value ? 'yes' : 'no'),
    ['needs', needsOneOf.length === 0 ? 'nothing more' : needsOneOf.join(' or ')],
    ...(withMainReefs === undefined
      ? []
      : [...line('from main reef', withMainReefs.from, ''), ...line('to main reef', withMainReefs.to, '')]),
    ...ruleLines(entry),
  ];
}

const WORDS = {
  set: 'set',
  douse: 'douse',
  unfurl: 'unfurl',
  furl: 'furl',
  reef: 'reef',
  shakeOut: 'shake out',
} as const;

/** What wear is reckoned with beside the constants of cloths, as rows of a table, the head first. */
export const wearRows = (): readonly (readonly string[])[] => [
  ['constant', 'value', ''],
  ...commonConstants().map((constant) => [
    constant.name,
    constant.low === constant.high ? `${constant.mid}` : `${constant.mid} (${constant.low} to ${constant.high})`,
    originText(constant),
  ]),
];

/** The constants of the life of a kind's cloth, as low to mid to high. */
function lifeLines({ life, eurPerM2 }: KindOfSail['cloth']): [string, string][] {
  if (life === null) return [['life', 'of such a cloth nothing is known']];
  const { lifeHours, designAwsKn, weightGPerM2, uvLossPerMonth, eurPerM2: ofCloth } = CLOTH_LIVES[life];
  const line = (label: string, figure: Figure<Band>, text: string): [string, string] => [
    label,
    `${text} ${originText(figure)}`,
  ];
  const range = ({ value: { low, mid, high } }: Figure<Band>, by = 1) => {
    const [least, middle, most] = [low, mid, high].map((value) => Number((value * by).toPrecision(4)));
    return `${middle} (${least} to ${most})`;
  };
  const price = eurPerM2 ?? ofCloth;
  return [
    line('life', lifeHours, `${range(lifeHours)} h as ${life}`),
    line('  made for', designAwsKn, `${range(designAwsKn)} kn AWS in the gust, at ${weightGPerM2.value} g/m²`),
    line('  sun takes', uvLossPerMonth, `${range(uvLossPerMonth, 100)} % of its strength a month in the open`),
    line('  price', price, `${range(price)} EUR for each m²`),
  ];
}

function operationText({ day, night }: DayAndNight<Figure>): string {
  const part = (when: string, { minutes, hands, keptShare }: DayAndNight<Figure>['day']) =>
    `${when} ${minutes.value} min ${originText(minutes)}, ${hands.value} ${hands.value === 1 ? 'hand' : 'hands'} ${originText(hands)}, ${keptShare.value} of her speed kept ${originText(keptShare)}`;
  return `${part('by day', day)}; ${part('by night', night)}`;
}

function reefLines(reef: DefaultReef, label: string): [string, string][] {
  const { areaShare, awaMinDeg, awsMaxKn, twsMaxKn } = reef;
  const part = (text: string, figure: Figure | undefined) =>
    figure === undefined ? [] : [`${text} ${originText(figure)}`];
  return [
    [
      label,
      [
        ...part(`${areaShare.value} of the area`, areaShare),
        ...part(`AWA from ${awaMinDeg?.value}°`, awaMinDeg),
        ...part(`gust to ${awsMaxKn.value} kn AWS`, awsMaxKn),
        ...part(`gust to ${twsMaxKn?.value} kn true`, twsMaxKn),
      ].join(', '),
    ],
  ];
}

/** Rules that a table does not hold, where a kind has one. */
function ruleLines({ kind, place }: KindOfSail): [string, string][] {
  if (place === 'mast' && kind !== 'wing-sail') {
    const list = (by: 'day' | 'night') =>
      reefLadder(3, by)
        .map(({ meanMaxKn }) => meanMaxKn)
        .join(', ');
    return [
      [
        'reef ladder',
        `mean wind at which the next reef is taken: by day ${list('day')} kn, by night ${list('night')} kn (S11, S13; catamarans). That of the night serves to compare; the house rule nightReefAboveKn is what plans by`,
      ],
    ];
  }
  if (kind === 'code-zero') {
    return [0.5, 0.55, 0.6, 0.65, 0.7, 0.75].map((ratio) => {
      const { awaMinDeg, awaMaxDeg, awsMaxKn, twsMaxKn, bestAwaDeg } = codeSailOf(ratio);
      return [
        `mid-girth ${ratio.toFixed(2)}`,
        `AWA ${awaMinDeg} to ${awaMaxDeg}°, best ${bestAwaDeg}°, gust to ${limitText(awsMaxKn)} AWS, ${twsMaxKn} kn true`,
      ];
    });
  }
  if (kind === 'overlapping-genoa') {
    return [110, 120, 130, 140, 150].map((overlap) => {
      const { awaMinDeg, awaMaxDeg, awsMaxKn } = genoaOf(overlap);
      return [`LP ${overlap} %`, `AWA ${awaMinDeg} to ${awaMaxDeg}°, gust to ${awsMaxKn} kn AWS`];
    });
  }
  return [];
}

/** The sources that kinds name, in words. */
export function sourcesText(kinds: readonly KindOfSail[]): string {
  const text = kinds.map((kind) => JSON.stringify(kind) + kindText(kind)).join();
  const used = Object.entries(SOURCES).filter(([id]) => new RegExp(`\\b${id}\\b`).test(text));
  return used.length === 0 ? '' : `Sources\n${used.map(([id, title]) => `  ${id.padEnd(4)} ${title}\n`).join('')}`;
}
