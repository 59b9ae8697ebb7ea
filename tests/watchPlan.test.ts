import { Body, Illumination, MoonPhase, Observer, SearchAltitude, SearchRiseSet } from 'astronomy-engine';
import { describe, expect, test } from 'vitest';
import {
  type Passage,
  planJson,
  planMarkdown,
  type SailChange,
  type TradeoffPoint,
  totalsOf,
  tradeoffCsv,
} from '../src/index.js';
import {
  blowing,
  boatOf,
  type Case,
  changeTimes,
  epoch,
  FLYING,
  HOUR,
  hourly,
  LON,
  MAIN,
  minutesOf,
  north,
  OPEN,
  op,
  planned,
  steady,
  toPrint,
  withFlying,
} from './support/invented.js';

// The plan as the watch reads it. Boats and winds are invented; times of sun and moon are held against astronomy-engine, all else against
// what is worked out by hand.

const printed = (one: Case, passage = planned(one)) => planMarkdown(toPrint(passage, one));

interface Row {
  readonly from: string;
  readonly to: string;
  readonly utc: string;
  readonly set: string;
  readonly steer: string;
  readonly wind: string;
  readonly breaks: string;
  readonly instead: string;
}
interface ShipDay {
  readonly date: string;
  readonly zone: string;
  readonly lights: string;
  readonly changes: readonly string[];
  /** Those of a coming night. */
  readonly due: readonly string[];
  readonly rows: readonly Row[];
}

/** The watch plan of a printed plan, day by day. */
const daysOf = (markdown: string): ShipDay[] => {
  const section = markdown.split('\n## Watch plan\n')[1]!.split('\n## ')[0]!;
  return section
    .split('\n### ')
    .slice(1)
    .map((text) => {
      const [head, ...lines] = text.split('\n').filter((line) => line !== '');
      const [, date, zone] = /^(\S+) \((\S+)\)$/.exec(head!)!;
      const cells = lines.filter((line) => line.startsWith('|')).map((line) => line.slice(2, -2).split(' | '));
      return {
        date: date!,
        zone: zone!,
        lights: lines[0]!,
        changes: lines.filter((line) => line.startsWith('- **')),
        due: lines.filter((line) => line.startsWith('- By daylight until ')),
        rows: cells.slice(2).map(([watch, utc, set, steer, wind, breaks, instead]) => {
          const [from, to] = watch!.split(' to ');
          return {
            from: from!,
            to: to!,
            utc: utc!,
            set: set!,
            steer: steer!,
            wind: wind!,
            breaks: breaks!.trim(),
            instead: (instead ?? '').trim(),
          };
        }),
      };
    });
};
const watchesOf = (markdown: string) => daysOf(markdown).map(({ rows }) => rows.map(({ from, to }) => [from, to]));
const changeLines = (markdown: string) => daysOf(markdown).flatMap(({ changes }) => changes);
const rowsOf = (markdown: string) => daysOf(markdown).flatMap(({ rows }) => rows);

const WHITE: Case = { boat: boatOf([MAIN], { white: ['main'] }), speeds: { white: 6 }, forecast: steady({ kn: 12 }) };
const REEFING = {
  ...MAIN,
  window: { ...OPEN, twsMaxKn: 22 },
  reefs: [{ areaShare: 0.6, twsMaxKn: 45 }],
  operations: { set: op(15, 2), douse: op(10, 2), reef: op(8, 2, 0.7), shakeOut: op(8, 2, 0.7) },
};
/** The gust passes 22 kn at 24 minutes past an hour. */
const reefedAt = (hour: number, more: Partial<Case> = {}): Case => ({
  boat: boatOf([REEFING], { full: ['main'], reef: ['main:1'] }),
  speeds: { full: 7, reef: 5 },
  forecast: blowing(hourly(96), (time) => ({ kn: 12, gustKn: time <= hour ? 15 : 32.5 })),
  ...more,
});

describe('by ship’s day and watch', () => {
  test('from departure to arrival, in watches of four hours by her clock, and says that these are taken', () => {
    // 100 miles at 6 kn from 12 h UTC, which is 10 h aboard: 16 h 40 min.
    const text = printed(WHITE);
    expect(daysOf(text).map(({ date, zone }) => [date, zone])).toEqual([
      ['2027-03-01', 'UTC-2'],
      ['2027-03-02', 'UTC-2'],
    ]);
    expect(rowsOf(text).map(({ from, to, utc, set }) => [from, to, utc, set])).toEqual([
      ['10:00', '12:00', '12:00', 'white'],
      ['12:00', '16:00', '14:00', 'white'],
      ['16:00', '20:00', '18:00', 'white'],
      ['20:00', '00:00', '22:00', 'white'],
      ['00:00', '02:40', '02:00', 'white'],
    ]);
    expect(text).toContain('The boat file gives no watches: they are taken to change every four hours (placeholder).');
  });

  test('in her own watches where the boat file has them, cut at midnight too', () => {
    const boat = { ...WHITE.boat, crew: 4, watches: { changes: ['03:00', '09:00', '15:00', '21:00'] } };
    const text = printed({ ...WHITE, boat, route: north(150) });
    // 25 hours.
    expect(watchesOf(text)).toEqual([
      [
        ['10:00', '15:00'],
        ['15:00', '21:00'],
        ['21:00', '00:00'],
      ],
      [
        ['00:00', '03:00'],
        ['03:00', '09:00'],
        ['09:00', '11:00'],
      ],
    ]);
    expect(text).not.toContain('gives no watches');
  });

  test('a watch is cut where sails are changed, and rows follow each other without a gap', () => {
    const text = printed(reefedAt(17));
    expect(rowsOf(text).map(({ from, to, set }) => [from, to, set])).toContainEqual(['12:00', '15:00', 'full']);
    expect(rowsOf(text).map(({ from, to, set }) => [from, to, set])).toContainEqual(['15:00', '16:00', 'reef']);
    const rows = rowsOf(text);
    rows.slice(1).forEach(({ from }, i) => {
      expect(from).toBe(rows[i]!.to);
    });
  });

  test('her clock is set back at noon where she comes into another zone, and UTC stands beside it', () => {
    // From 36° W, whose zone is two hours behind, to the west at 6 kn; 37.5° W is passed after 15 hours, the clock set at the next noon.
    const west = {
      waypoints: [
        { name: 'A', latDeg: 0, lonDeg: -36 },
        { name: 'B', latDeg: 0, lonDeg: -38 },
      ],
    };
    const days = daysOf(printed({ ...WHITE, route: west, departs: 15 }));
    expect(days.map(({ date, zone }) => [date, zone])).toEqual([
      ['2027-03-01', 'UTC-2'],
      ['2027-03-02', 'UTC-2'],
    ]);
    // At noon of the second day, 14 h UTC, the clock goes back to 11; she arrives 20 h after 15 h UTC, at 11 h UTC: before it.
    expect(days[1]!.rows.at(-1)!.to).toBe('09:00');
    const further = { waypoints: [west.waypoints[0]!, { name: 'C', latDeg: 0, lonDeg: -40 }] };
    const later = daysOf(printed({ ...WHITE, route: further, departs: 15 }));
    // 40 h: arrival at 7 h UTC of the third day, 4 h by the new zone.
    expect(later.map(({ date, zone }) => [date, zone])).toEqual([
      ['2027-03-01', 'UTC-2'],
      ['2027-03-02', 'UTC-2'],
      ['2027-03-03', 'UTC-3'],
    ]);
    expect(later[2]!.rows.map(({ from, to, utc }) => [from, to, utc])).toEqual([['00:00', '04:00', '03:00']]);
    // Beside the clock stands UTC: two hours ahead before noon, three after.
    for (const { from, utc } of later[1]!.rows) {
      const ahead = (Number(utc.slice(0, 2)) - Number(from.slice(0, 2)) + 24) % 24;
      expect(ahead, from).toBe(Number(utc.slice(0, 2)) < 14 && Number(utc.slice(0, 2)) >= 2 ? 2 : 3);
    }
  });

  test.each([
    // Noon is at 14 h UTC; sunset near 18 h local time at the equator, three hours behind UTC at 41° W: 20:45 UTC or so.
    ['west', -36, -40, 15, 'At 12:00 the clock goes back to 11:00 (UTC-3): that watch is 1 h longer'],
    ['east', -38, -34, 15, 'At 12:00 the clock goes on to 13:00 (UTC-2): that watch is 1 h shorter'],
  ])(
    'on the day on which it is set that is said, and the lights are by the clock as it is then: to the %s',
    (_, from, to, departs, said) => {
      const one: Case = {
        ...WHITE,
        route: {
          waypoints: [
            { name: 'A', latDeg: 0, lonDeg: from },
            { name: 'B', latDeg: 0, lonDeg: to },
          ],
        },
        departs,
      };
      const passage = planned(one);
      const { shipDays } = totalsOf(passage, one.boat);
      const days = daysOf(printed(one, passage));
      expect(printed(one, passage).split(said).length).toBe(2);
      const clock = (instant: string | null, zone: number) =>
        new Date((epoch(instant!) + zone * HOUR + 30) * 1000).toISOString().slice(11, 16);
      const [before, after] = from > to ? [-2, -3] : [-3, -2];
      expect(days[1]!.lights).toContain(`sunrise ${clock(shipDays[1]!.sunrise, before)}`);
      expect(days[1]!.lights).toContain(`sunset ${clock(shipDays[1]!.sunset, after)}`);
      expect(days[1]!.lights).toContain(`dusk ${clock(shipDays[1]!.dusk, after)}`);
    },
  );

  test('there is one under the baseline too, without reasons', () => {
    const fastest = { ...reefedAt(17), options: { choice: 'fastest' as const } };
    expect(changeLines(printed(fastest))).toEqual([]);
    expect(rowsOf(printed(fastest)).map(({ set }) => set)).toContain('reef');
  });
});

describe('what is up and what to steer', () => {
  const abeam = (Math.atan2(12, 6) * 180) / Math.PI;
  test.each([
    [90, 'starboard'],
    [270, 'port'],
  ])('the tack and the apparent wind angle, with the wind from %s°: %s', (fromDeg, tack) => {
    const rows = rowsOf(printed({ ...WHITE, forecast: steady({ kn: 12, fromDeg }) }));
    for (const { steer } of rows) expect(steer).toBe(`${tack} AWA ${abeam.toFixed(0)}°`);
  });

  test('as a range where it moves, and the wind with its highest gust', () => {
    // From 12 kn at 14 h to 20 kn at 18 h, AWA 63 to 73°.
    const forecast = blowing(hourly(60), (hour) => {
      const kn = hour <= 14 ? 12 : Math.min(20, 12 + 2 * (hour - 14));
      return { kn, gustKn: kn + 5 };
    });
    const [, second] = rowsOf(printed({ ...WHITE, forecast }));
    expect(second).toMatchObject({ from: '12:00', to: '16:00' });
    const at = (kn: number) => ((Math.atan2(kn, 6) * 180) / Math.PI).toFixed(0);
    // Rows are of the start of each hour: 12, 14, 16 and 18 kn.
    expect(second!.steer).toBe(`starboard AWA ${at(12)} to ${at(18)}°`);
    expect(second!.wind).toBe('12 to 18 kn, gust 23');
  });

  test('tacking, under engine and hove to are said', () => {
    // Into the wind with nothing closer than 45°.
    const beating = printed({
      ...WHITE,
      speeds: {
        white: {
          twsKn: [0.1, 200],
          twaDeg: [45, 180],
          stwKn: [6, 6, 6, 6],
        },
      },
      forecast: steady({ kn: 12, fromDeg: 0 }),
      route: north(30),
    });
    const at45 = (Math.atan2(12 * Math.SQRT1_2, 6 + 12 * Math.SQRT1_2) * 180) / Math.PI;
    expect(rowsOf(beating)[0]!.steer).toMatch(new RegExp(`^tacking (starboard|port) AWA ${at45.toFixed(0)}°$`));
    const calm = printed({
      ...WHITE,
      boat: boatOf([MAIN], { white: ['main'] }, { engine: { cruiseKn: 5, litresPerHour: 1, fuelLitres: 100 } }),
      speeds: { white: 0.5 },
      house: { motorBelowKn: 2 },
      route: north(30),
    });
    expect(rowsOf(calm)[0]).toMatchObject({ set: 'motor' });
    expect(rowsOf(calm)[0]!.steer).toMatch(/^motor/);
    const storm = printed(
      reefedAt(14, {
        boat: boatOf([{ ...REEFING, reefs: [] }], { full: ['main'] }),
        speeds: { full: 7 },
        forecast: blowing(hourly(96), (hour) => ({ kn: 12, fromDeg: 0, gustKn: hour > 14 && hour < 20 ? 32 : 15 })),
      }),
    );
    expect(rowsOf(storm).find(({ set }) => set === 'hove to')).toMatchObject({
      from: '12:00',
      steer: 'hove-to',
      breaks: '',
      instead: '',
    });
    const waiting = printed({ ...WHITE, departs: 20, route: north(30), options: { arriveDaylight: true } });
    expect(rowsOf(waiting).some(({ set }) => set === 'hove to')).toBe(true);
  });
});

describe('what breaks the plan and what is done then', () => {
  test('the gust and the angles, and the reef', () => {
    const [row] = rowsOf(printed(reefedAt(17)));
    expect(row).toMatchObject({ set: 'full', breaks: 'gust to 22 kn, AWA 0 to 180°', instead: 'gust: reef' });
  });

  test('to heave to over what the last reef stands', () => {
    const row = rowsOf(printed(reefedAt(17))).find(({ set, from }) => set === 'reef' && from === '16:00');
    expect(row).toMatchObject({ breaks: 'gust to 45 kn, AWA 0 to 180°', instead: 'gust: heave to' });
  });

  test('another sail where the wind turns out of its angles', () => {
    // Abeam AWA 63; the run stands from 60° on and has no speed closer than 90° to the wind.
    const boat = boatOf([MAIN, { ...FLYING, window: { awaMinDeg: 60, awaMaxDeg: 180 } }], {
      white: ['main'],
      run: ['flying'],
    });
    const run = { twsKn: [0.1, 200], twaDeg: [90, 180], stwKn: [6, 6, 6, 6] };
    const [row] = rowsOf(printed({ ...WHITE, boat, speeds: { white: 5, run } }));
    expect(row).toMatchObject({ set: 'run', breaks: 'AWA 60 to 180°', instead: 'angle: white' });
  });

  test('nothing where nothing breaks it', () => {
    const [row] = rowsOf(printed(WHITE));
    expect(row).toMatchObject({ breaks: 'AWA 0 to 180°', instead: '' });
  });

  test('to heave to where nothing stands in the wind that has turned', () => {
    const boat = boatOf([{ ...FLYING, window: { awaMinDeg: 60, awaMaxDeg: 180 } }], { run: ['flying'] });
    const run = { twsKn: [0.1, 200], twaDeg: [90, 180], stwKn: [6, 6, 6, 6] };
    const [row] = rowsOf(printed({ ...WHITE, boat, speeds: { run } }));
    expect(row).toMatchObject({ set: 'run', breaks: 'AWA 60 to 180°', instead: 'angle: heave to' });
  });
});

describe('the changes of a day', () => {
  const lull: Case = {
    boat: boatOf([MAIN, { ...FLYING, id: 'big', operations: { set: op(15, 2), douse: op(12, 2) } }], {
      working: ['main'],
      big: ['main', 'big'],
    }),
    speeds: {
      working: [
        [8, 4],
        [15, 7],
      ],
      big: [
        [8, 4.8],
        [15, 6],
      ],
    },
    forecast: blowing(hourly(60), (hour) => ({ kn: hour >= 18 && hour <= 24 ? 8 : 15 })),
    options: { planSet: 'working' },
  };

  test('stand under the day on which they are made, by her clock with UTC, with handling, minutes and hands', () => {
    // At 18 and 24 h UTC, which is 16 and 22 h of the same day aboard.
    const [day, next] = daysOf(printed(lull));
    expect(day!.changes.length).toBe(2);
    expect(next!.changes).toEqual([]);
    expect(day!.changes[0]).toMatch(/^- \*\*16:00\*\* \(18:00 UTC\): working to big\. set big: 15 min, 2 hands\./);
    expect(day!.changes[1]).toMatch(
      /^- \*\*22:00\*\* \(00:00 UTC\), in the dark: big to working\. douse big: 12 min, 2 hands\./,
    );
  });

  test('with what they are for: how long, how much better, the next best, daylight', () => {
    const [line] = changeLines(printed(lull));
    // 4.8 kn against 4 kn.
    expect(line).toContain('For 6 h 00 min under big; 0.8 kn better than working.');
    expect(line).toContain('Next best to leave working, ');
    expect(line).toMatch(/\d+ min dearer in time and price\./);
    // The sun sets at 18:15 by her clock: a quarter of an hour from 18:00 on is not surely done by then.
    expect(line).toContain('By daylight until 17:00.');
    expect(line).not.toContain('barred');
  });

  test('with what bars what was set, and what would be faster but for that', () => {
    const [line] = changeLines(printed(reefedAt(17)));
    expect(line).toMatch(/^- \*\*15:00\*\* \(17:00 UTC\): full to reef\. reef main: 8 min, 2 hands\./);
    expect(line).toContain('full is barred from 15:00 by the gust.');
    expect(line).toContain('Faster but barred: full (the gust).');
    expect(line).toContain('Next best hove to, ');
  });

  test('a change that wakes the watch below says so', () => {
    const boat = withFlying(
      { operations: { set: op(10, 3), douse: op(10, 2) } },
      { crew: 4, watches: { changes: ['00:00', '04:00', '08:00', '12:00', '16:00', '20:00'] } },
    );
    const woken = (wakeMinutes: number) =>
      changeLines(
        printed({
          boat,
          speeds: { white: 6, light: 6.5 },
          forecast: steady({ kn: 12 }),
          house: { wakeMinutes },
          options: { planSet: 'white' },
        }),
      )[0];
    expect(woken(0)).toMatch(/^- \*\*10:00\*\* .*: 10 min, 3 hands, wakes the watch below\./);
    expect(woken(300)).toMatch(/^- \*\*12:00\*\* .*: 10 min, 3 hands\./);
  });

  test('one by too few hands says how many there are not', () => {
    const one: Case = {
      boat: withFlying({ window: { ...OPEN, twsMaxKn: 20 }, operations: { set: op(20, 3), douse: op(20, 3) } }),
      speeds: { white: 6, light: 8 },
      forecast: blowing(hourly(72), (hour) => ({ kn: hour <= 16 ? 12 : 25 })),
      options: { crew: 2, planSet: 'light' },
    };
    expect(changeLines(printed(one))[0]).toContain('20 min, 3 hands, 1 MORE THAN THERE ARE.');
  });

  test('one sooner after the last than the house rule has it says why', () => {
    // The sail is set at departure; an hour on the gust takes it down again, two before the rule would.
    const one: Case = {
      boat: withFlying({ window: { ...OPEN, twsMaxKn: 20 }, operations: { set: op(1), douse: op(1) } }),
      speeds: { white: 2, light: 8 },
      forecast: blowing(hourly(72), (hour) => ({ kn: hour <= 13 ? 12 : 25 })),
      house: { leastHoursBetweenChanges: 3 },
      options: { planSet: 'white' },
    };
    const lines = changeLines(printed(one));
    expect(lines.length).toBe(2);
    expect(lines[0]).not.toContain('sooner after the last');
    expect(lines[1]).toContain('sooner after the last than the house rule has it, because what was set may not stand');
  });

  test('the same handling again and again is told once', () => {
    const twice = {
      ...REEFING,
      reefs: [
        { areaShare: 0.8, twsMaxKn: 23 },
        { areaShare: 0.6, twsMaxKn: 45 },
      ],
    };
    const one: Case = {
      boat: boatOf([twice], { full: ['main'], reef: ['main:2'] }),
      speeds: { full: 7, reef: 5 },
      forecast: blowing(hourly(96), (time) => ({ kn: 12, gustKn: time <= 16 ? 15 : 32.5 })),
    };
    expect(changeLines(printed(one))[0]).toContain('. reef main 2 times: 16 min, 2 hands.');
  });

  test('of what is faster but barred the fastest three are told', () => {
    const names = ['a', 'b', 'c', 'd', 'e'];
    const one: Case = {
      boat: boatOf([REEFING, ...names.map((id) => ({ ...FLYING, id, window: { ...OPEN, twsMaxKn: 20 } }))], {
        full: ['main'],
        reef: ['main:1'],
        ...Object.fromEntries(names.map((id) => [id, ['main:1', id]])),
      }),
      speeds: { full: 7, reef: 5, a: 5.1, b: 5.5, c: 5.2, d: 5.4, e: 5.3 },
      forecast: blowing(hourly(96), (time) => ({ kn: 12, gustKn: time <= 16 ? 21 : 32.5 })),
    };
    const line = changeLines(printed(one)).find((some) => some.includes('full to reef'))!;
    expect(line).toContain('Faster but barred: full (the gust), b (the gust), d (the gust), 3 more in plan.json.');
  });

  test('one against a house rule cries out', () => {
    const caught: Case = {
      boat: boatOf([{ ...REEFING, reefs: [] }], { full: ['main'] }),
      speeds: { full: 7 },
      forecast: blowing(hourly(72), (hour) => ({ kn: 12, gustKn: hour <= 26 || hour > 30 ? 15 : 32.5 })),
      departs: 24,
      house: { changesInDark: 'none' },
      options: { planSet: 'full' },
    };
    const lines = changeLines(printed(caught));
    expect(lines[0]).toContain('full to hove to. douse main: 10 min, 2 hands, AGAINST A HOUSE RULE, in need.');
    expect(lines[1]).not.toContain('HOUSE RULE');
  });

  test('one that could have been made by no daylight before may wait for it', () => {
    const passage = reefedAt(17, {
      forecast: blowing(hourly(96), (hour) => ({ kn: 12, gustKn: hour <= 17 || hour > 26 ? 15 : 32.5 })),
      route: north(150),
    });
    const shaken = changeLines(printed(passage)).find((line) => line.includes('reef to full'));
    expect(shaken).toMatch(/May wait for daylight until 0[67]:00\.$/);
  });

  test('one for which the last light was of the day before has that date', () => {
    // The gust comes at 3 h UTC of the second day, 1 h aboard.
    const [line] = changeLines(printed(reefedAt(27, { route: north(200) })));
    expect(line).toMatch(/^- \*\*01:00\*\* \(03:00 UTC\), in the dark/);
    expect(line).toContain('By daylight until 2027-03-01 18:00.');
  });

  test('what can be made by the daylight of the day before stands there too', () => {
    const [first, second] = daysOf(printed(reefedAt(27, { route: north(200) })));
    expect(first!.due).toEqual(['- By daylight until **18:00**, or in the dark at 01:00 on 2027-03-02: full to reef.']);
    expect(second!.due).toEqual([]);
    for (const { due } of daysOf(printed(reefedAt(17)))) expect(due).toEqual([]);
  });

  test('one for which there is neither says so', () => {
    // It comes on to blow in the dark: what is set then collapsed in the wind of the day.
    const rising: Case = {
      boat: boatOf(
        [
          { ...MAIN, window: { ...OPEN, awsMinKn: 15 } },
          { ...FLYING, window: { ...OPEN, twsMaxKn: 22 } },
        ],
        { heavy: ['main'], light: ['flying'] },
      ),
      speeds: { heavy: 6, light: 6 },
      forecast: blowing(hourly(60), (hour) => {
        const kn = Math.min(24, Math.max(10, 10 + (14 / 3) * (hour - 26)));
        return { kn, gustKn: 1.25 * kn };
      }),
      route: north(150),
      options: { planSet: 'light' },
    };
    const [line] = changeLines(printed(rising));
    expect(line).toMatch(/in the dark: light to heavy\..*Not to be made by daylight\.$/);
  });

  test('one that cannot wait for as long as there is light says so', () => {
    const [line] = changeLines(printed(reefedAt(17)));
    expect(line).toContain('Not later, by daylight.');
  });

  test('a reef that is for the angle alone is told as such', () => {
    // Of a wind of 12 kn that comes round to 150° by 15:00, by hand: at 6 kn she feels it forward of 130°, at 2 kn aft of it.
    const felt = (kn: number) =>
      (Math.atan2(12 * Math.sin(Math.PI / 6), kn - 12 * Math.cos(Math.PI / 6)) * 180) / Math.PI;
    expect([felt(6) < 130, felt(2) > 130]).toEqual([true, true]);
    const boat = boatOf(
      [
        { ...MAIN, reefs: [{ areaShare: 0.5 }] },
        { ...FLYING, id: 'poled', window: { awaMinDeg: 130, awaMaxDeg: 180 } },
      ],
      { full: ['main', 'poled'], reef: ['main:1', 'poled'] },
    );
    const turning: Case = {
      boat,
      speeds: { full: 6, reef: 2 },
      forecast: blowing(hourly(60), (hour) => ({ kn: 12, fromDeg: hour < 17 ? 180 : 150 })),
      options: { planSet: 'full' },
    };
    const [line] = changeLines(printed(turning));
    expect(line).toContain(
      'full is barred from 15:00 by its angles or too little wind; reefed for the angle alone: slower, she has the wind further aft',
    );
  });

  test('a reef for a gust that leaves no angle to gybe at is not told as one for the angle', () => {
    const passage = planned(reefedAt(17));
    const told = (change: Partial<SailChange>) => {
      const changes = passage.changes!.map((own) => ({ ...own, ...change }));
      return changeLines(printed(reefedAt(17), { ...passage, changes }))[0]!;
    };
    const [time] = passage.changes!.map((change) => change.time);
    const barred = { time: time!, reason: 'window' } as const;
    expect(told({ barred, gustShare: 0.95 })).toContain(
      '; the gust is near the limit of what was set, which leaves it no angle to be gybed at.',
    );
    expect(told({ barred: null, gustShare: 0.95 })).toContain('; the gust is near the limit of what was set.');
    expect(told({ barred, gustShare: 0.3, fasterBarred: [] })).toContain('; reefed for the angle alone: ');
    expect(told({ barred: null, gustShare: 0.3, fasterBarred: [] })).not.toContain('angle');
    expect(told({})).not.toMatch(/near the limit|for the angle/);
  });

  test('a bar that comes on a later day has its date', () => {
    const passage: Case = {
      boat: withFlying({ window: { ...OPEN, twsMaxKn: 22 } }),
      speeds: { white: 6, light: 5 },
      forecast: blowing(hourly(96), (hour) => ({ kn: 12, gustKn: hour <= 54 ? 15 : 32.5 })),
      route: north(300),
      options: { planSet: 'light' },
    };
    const [line] = changeLines(printed(passage));
    expect(line).toContain('light is barred from ');
    expect(line).toContain('light is barred from 2027-03-03 04:00 by the gust');
  });
});

describe('a main before the wind', () => {
  const run = (fromDeg: number, sails = ['main']): Case => ({
    boat: boatOf([MAIN, FLYING], { own: sails }),
    speeds: { own: 6 },
    forecast: steady({ kn: 18, fromDeg }),
  });

  test('is told to be held by a preventer where it may gybe by itself, and nowhere else', () => {
    expect(printed(run(180))).toContain('rig a preventer, stay clear of the boom (common practice, no source)');
    // On the quarter, and under a headsail alone.
    expect(printed(run(120))).not.toContain('preventer');
    expect(printed(run(180, ['flying']))).not.toContain('preventer');
  });
});

describe('the lights of a day', () => {
  test('are those of where she is then: two degrees and more of longitude to the west by evening', () => {
    const one: Case = {
      ...WHITE,
      speeds: { white: 12 },
      route: {
        waypoints: [
          { name: 'A', latDeg: 0, lonDeg: -24 },
          { name: 'B', latDeg: 0, lonDeg: -38 },
        ],
      },
      departs: 2,
    };
    const passage = planned(one);
    const [, day] = totalsOf(passage, one.boat).shipDays;
    for (const [what, way] of [
      ['sunrise', +1],
      ['sunset', -1],
    ] as const) {
      const time = day![what]!;
      const row = passage.hours.filter((hour) => hour.time <= time).at(-1)!;
      const observer = new Observer(row.latDeg, row.lonDeg, 0);
      const expected = SearchRiseSet(Body.Sun, observer, way, new Date(Date.parse(time) - 6 * 3_600_000), 1)!.date;
      expect(Math.abs(Date.parse(time) - expected.getTime()) / 60_000, what).toBeLessThan(1);
    }
  });

  const CLOCK = '(\\d\\d:\\d\\d)';
  /** Minutes of her day, two hours behind UTC. */
  const aboard = (date: Date) => ((date.getTime() / 60_000 - 120) % 1440) + 0;
  const told = (lights: string, what: string) => {
    const [hours, minutes] = new RegExp(`${what} ${CLOCK}`).exec(lights)![1]!.split(':').map(Number);
    return hours! * 60 + minutes!;
  };

  test('sunrise and sunset, dawn and dusk, the moon’s rising, setting and share, as astronomy-engine has them', () => {
    const days = daysOf(printed({ ...WHITE, route: north(250) }));
    expect(days.length).toBe(3);
    days.forEach(({ date, lights }, n) => {
      // Midnight of her day. Her place moves by less than three degrees in the passage: at the equator that is nothing to the sun and a
      // minute or two to the moon.
      const midnight = new Date(Date.parse(`${date}T00:00:00Z`) + 2 * 3_600_000);
      const observer = new Observer(Math.min(250, 6 * (2 + 24 * n)) / 60, LON, 0);
      const of = (body: Body, way: number) => SearchRiseSet(body, observer, way, midnight, 1)!.date;
      const twilight = (way: number) => SearchAltitude(Body.Sun, observer, way, midnight, 1, -6)!.date;
      const near = (what: string, expected: Date, minutes: number) =>
        expect(Math.abs(told(lights, what) - aboard(expected)), `${date} ${what}`).toBeLessThanOrEqual(minutes);
      near('sunrise', of(Body.Sun, +1), 1.5);
      near('sunset', of(Body.Sun, -1), 1.5);
      // Civil twilight.
      near('Dawn', twilight(+1), 1.5);
      near('dusk', twilight(-1), 1.5);
      near('rises', of(Body.Moon, +1), 3);
      near('sets', of(Body.Moon, -1), 3);
      // The share grows or shrinks by up to half a percent an hour.
      const noon = new Date(midnight.getTime() + 12 * 3_600_000);
      const lit = Number(/(\d+) % lit/.exec(lights)![1]);
      expect(Math.abs(lit - 100 * Illumination(Body.Moon, noon).phase_fraction)).toBeLessThan(7);
      // Waning: after full moon, by the longitude of the moon from the sun.
      const phase = MoonPhase(noon);
      expect(phase).toBeGreaterThan(180);
      expect(lights).toMatch(Math.abs(phase - 270) < 20 ? /Moon last quarter/ : /Moon waning/);
    });
  });
});

describe('landfall', () => {
  // She sails at 10 h of the first of March by her clock; the sun is up from about 6:09 to 18:15.
  test.each([
    [42, '2027-03-01 17:00', 'by daylight'],
    [49, '2027-03-01 18:10', 'by daylight'],
    [50.5, '2027-03-01 18:25', 'in the dark'],
    [60, '2027-03-01 20:00', 'in the dark'],
    [120, '2027-03-02 06:00', 'in the dark'],
    [123, '2027-03-02 06:30', 'by daylight'],
  ])('after %s miles: %s, %s', (distanceNm, at, when) => {
    const text = printed({ ...WHITE, route: north(distanceNm) });
    expect(text).toContain(`| Landfall | ${at} by the ship's clock (UTC-2), ${when} |`);
  });

  test('none is told of a passage that does not arrive', () => {
    expect(printed({ ...WHITE, forecast: steady({ kn: 12 }, 24) })).not.toContain('| Landfall |');
  });
});

describe('the trade-off', () => {
  // Two lulls: one of eight hours in which the big sail gains much, one of four in which it gains less.
  const lulls = (pricePerChangeMinutes: number): Case => ({
    boat: boatOf([MAIN, { ...FLYING, id: 'big', operations: { set: op(15, 2), douse: op(15, 2) } }], {
      working: ['main'],
      big: ['main', 'big'],
    }),
    speeds: {
      working: [
        [8, 4],
        [15, 7],
      ],
      big: [
        [8, 5.2],
        [15, 5],
      ],
    },
    forecast: blowing(hourly(96), (hour) => ({
      kn: (hour >= 16 && hour <= 24) || (hour >= 30 && hour <= 34) ? 8 : 15,
    })),
    route: north(180),
    house: { pricePerChangeMinutes },
    options: { planSet: 'working' },
  });
  const parsed = (passage: Passage) => {
    const [head, ...rows] = tradeoffCsv(passage).trimEnd().split('\n');
    expect(head).toBe('changes,arrival,hours,chosen');
    return rows.map((row) => {
      const [changes, arrival, hours, chosen] = row.split(',');
      return { changes: Number(changes), arrival: arrival!, hours: Number(hours), chosen };
    });
  };
  const PRICES = [0, 10, 20, 30, 1000];

  test.each(PRICES)('at %s minutes a change: never later with more, one chosen, as in plan.json', (price) => {
    const one = lulls(price);
    const passage = planned(one);
    const rows = parsed(passage);
    expect(rows.length).toBeGreaterThan(2);
    rows.slice(1).forEach(({ changes, hours }, i) => {
      expect(changes).toBe(rows[i]!.changes + 1);
      expect(hours).toBeLessThanOrEqual(rows[i]!.hours);
    });
    // Hours have three decimals.
    for (const { arrival, hours } of rows)
      expect((epoch(arrival) - epoch(passage.departure)) / HOUR).toBeCloseTo(hours, 2);
    const chosen = rows.filter((row) => row.chosen === '1');
    expect(chosen.map(({ changes, arrival }) => [changes, arrival])).toEqual([
      [changeTimes(passage).length, passage.end],
    ]);
    // The price picks it: none other is worth more.
    const worth = ({ changes, hours }: (typeof rows)[number]) => hours * 60 + changes * price;
    for (const row of rows) expect(worth(row)).toBeGreaterThanOrEqual(worth(chosen[0]!) - 0.1);
    const { curve } = JSON.parse(planJson(toPrint(passage, one))) as { readonly curve: readonly TradeoffPoint[] };
    expect(curve.map(({ changes, arrival, chosen: is }) => [changes, arrival, is ? '1' : '0'])).toEqual(
      rows.map(({ changes, arrival, chosen: is }) => [changes, arrival, is]),
    );
    curve.forEach(({ hours, estimated }, i) => {
      expect(hours).toBeCloseTo(rows[i]!.hours, 2);
      expect(estimated).toBe(false);
    });
  });

  test('its ends are what is sailed without a change and with as many as are free', () => {
    const rows = parsed(planned(lulls(10)));
    const none = planned(lulls(1000));
    const free = planned(lulls(0));
    expect(changeTimes(none)).toEqual([]);
    expect(changeTimes(free).length).toBe(4);
    // The curve is by tables, minutes from what is sailed.
    expect(Math.abs(rows[0]!.hours * 60 - minutesOf(none))).toBeLessThan(3);
    expect(rows.at(-1)!.changes).toBe(4);
    expect(Math.abs(rows.at(-1)!.hours * 60 - minutesOf(free))).toBeLessThan(3);
    // With two the longer lull is taken: 15 minutes at half of 4 kn and 7.75 h at 5.2 kn instead of eight at 4 kn gain 8.8 miles, and the
    // last change loses half a mile and more of them; made good at 7 kn.
    const gain = 0.25 * 2 + 7.75 * 5.2 - 32;
    const saved = (rows[0]!.hours - rows[2]!.hours) * 7;
    expect(saved).toBeLessThan(gain);
    expect(saved).toBeGreaterThan(gain - 1.2);
    expect(rows[1]!.hours).toBe(rows[0]!.hours);
  });

  test('a dearer change never makes for more of them', () => {
    const counts = PRICES.map((price) => changeTimes(planned(lulls(price))).length);
    counts.slice(1).forEach((count, i) => {
      expect(count).toBeLessThanOrEqual(counts[i]!);
    });
    expect(new Set(counts).size).toBeGreaterThan(2);
  });

  test('and why there are not fewer, where fewer do not bring her there', () => {
    // From 24 h the sail that is set may not stand: at least one change, at any price.
    const one: Case = {
      boat: withFlying({ window: { ...OPEN, twsMaxKn: 20 } }),
      speeds: { white: 5, light: 7 },
      forecast: blowing(hourly(60), (hour) => ({ kn: hour <= 24 ? 12 : 25 })),
      route: north(150),
      house: { pricePerChangeMinutes: 100_000 },
      options: { planSet: 'light' },
    };
    expect(changeTimes(planned(one)).length).toBe(1);
    expect(printed(one)).toContain('With fewer than 1 change she cannot get there.');
    // Where white goes too slowly to be there in time she is sailed with the one change that is, not with none.
    const slow: Case = {
      ...one,
      forecast: steady({ kn: 12 }, 48),
      speeds: { white: 3, light: 7 },
      options: { planSet: 'white' },
    };
    expect(changeTimes(planned(slow)).length).toBe(1);
    expect(printed(slow)).toContain('With no change she would not arrive within the forecast, so that is passed over.');
  });

  test('a gain of less than a minute is none to tell of', () => {
    for (const price of PRICES) expect(printed(lulls(price))).not.toContain('would be 0 h 00 min earlier');
  });

  test('the plan tells what more changes would bring', () => {
    const passage = planned(lulls(1000));
    const rows = parsed(passage);
    const minutes = Math.round((rows[0]!.hours - rows.at(-1)!.hours) * 60);
    const text = printed(lulls(1000), passage);
    expect(text).toContain('A sail change is worth 1000 min of arrival time');
    const [, hours, rest] = /With 4 changes instead of 0 she would be (\d+) h (\d+) min earlier\./.exec(text)!;
    expect(Math.abs(Number(hours) * 60 + Number(rest) - minutes)).toBeLessThanOrEqual(1);
    expect(printed(lulls(0))).not.toContain('changes instead of');
  });

  test('where the forecast ends first what is left is reckoned, and plan.json says so', () => {
    const passage = planned({ ...WHITE, forecast: steady({ kn: 12 }, 24) });
    const [row] = parsed(passage);
    // At 6 kn.
    expect(row).toMatchObject({ changes: 0, chosen: '1' });
    expect(row!.hours).toBeCloseTo(100 / 6, 2);
    expect(epoch(row!.arrival)).toBeGreaterThan(epoch(passage.end));
    const { curve } = JSON.parse(planJson(toPrint(passage, WHITE))) as { readonly curve: readonly TradeoffPoint[] };
    expect(curve.map(({ estimated }) => estimated)).toEqual([true]);
  });

  test('of the baseline there is one row: what it came to', () => {
    const passage = planned({ ...lulls(20), options: { planSet: 'working', choice: 'fastest' } });
    const count = passage.hours.filter(({ sailChange }) => sailChange).length;
    expect(parsed(passage)).toEqual([
      {
        changes: count,
        arrival: passage.end,
        hours: Number((minutesOf(passage) / 60).toFixed(3)),
        chosen: '1',
      },
    ]);
  });
});

describe('squalls', () => {
  // Chances of the model's page, placeholders: 0.03 an hour to 5° of latitude, half as many again in the dark.
  const squally = (house: Case['house'], distanceNm = 60, departs = 12): Case => ({
    ...WHITE,
    route: north(distanceNm),
    departs,
    house: { ...house },
  });

  test('off: it is cried out that they are not allowed for, with how many are to be expected', () => {
    // Ten hours by day, and ten in the dark.
    expect(printed(squally({}, 48))).toContain(
      'SQUALLS ARE NOT ALLOWED FOR. A forecast on a grid does not show them. About 0.2 squalls are to be expected (their chance is a placeholder without a source).',
    );
    const expected = (distanceNm: number, departs: number) =>
      planned(squally({}, distanceNm, departs)).squalls!.expected;
    expect(expected(48, 12)).toBeCloseTo(8 * 0.03, 9);
    expect(expected(48, 22)).toBeCloseTo(8 * 0.045, 9);
    // A row that is cut counts for its minutes.
    expect(expected(51, 12)).toBeCloseTo(8.5 * 0.03, 6);
  });

  test('on: how many, and for how many hours the limit gust allows for them', () => {
    const text = printed(squally({ squalls: true }, 48));
    expect(text).not.toContain('SQUALLS ARE NOT ALLOWED FOR');
    expect(text).toContain(
      'About 0.2 squalls are to be expected (their chance is a placeholder without a source); the limit gust allows for them in 8 h.',
    );
    // Under the threshold by day and over it in the dark, from 21 h UTC on.
    const night = planned(squally({ squalls: true, squallThreshold: 0.04 }, 72)).squalls!;
    expect(night).toMatchObject({ allowedFor: true, hours: 3 });
    expect(night.expected).toBeCloseTo(9 * 0.03 + 3 * 0.045, 6);
  });

  test('under the baseline nothing is said of them', () => {
    expect(printed({ ...WHITE, options: { choice: 'fastest' } })).not.toMatch(/squalls are/i);
  });

  test('a chance that the house rules set is not called a placeholder', () => {
    const text = printed(squally({ squalls: true, squallChance: 0.05 }, 48));
    expect(text).toContain('About 0.4 squalls are to be expected');
    expect(text).not.toContain('their chance is a placeholder');
  });
});

describe('hours on a knife’s edge', () => {
  /** Limits of the gust, both ways of the wind that blows. */
  const edge = (kn: number): Case => ({
    boat: boatOf([{ ...MAIN, window: { ...OPEN, twsMaxKn: 22 } }, FLYING], { white: ['main'], other: ['flying'] }),
    speeds: {
      white: 5,
      // 12 kn: 4.8 kn. Better in a fifth more, and 10° either way with less.
      other: { twsKn: [8, 20], twaDeg: [80, 90, 100], stwKn: [5.2, 5.2, 3.2, 8, 5.2, 5.2] },
    },
    forecast: steady({ kn, gustKn: 1.6 * kn }),
    route: north(30),
  });

  test('are listed by stretch with the share that is left, where it is under half', () => {
    const one = edge(12);
    const passage = planned(one);
    const [row] = passage.hours;
    expect(row!.sailPlan).toBe('white');
    // The other makes 5.2 kn at 80 and 100° in any wind: six winds. At 90° it is the slower in a fifth less; a fifth more bars white.
    expect(row!.standsShare).toBe(1 / 8);
    const text = printed(one, passage);
    expect(text).toContain("## On a knife's edge");
    const sameHours = passage.hours.filter(({ standsShare }) => standsShare! < 0.5).length;
    expect(sameHours).toBe(passage.hours.length);
    expect(text).toContain(`- 2027-03-01T12:00:00Z, ${sameHours} h under white: stands in 13 % of them`);
  });

  test('none where the plan stands in half of them and more', () => {
    // Three of eight winds are over the limit.
    const one: Case = { ...WHITE, boat: boatOf([{ ...MAIN, window: { ...OPEN, twsMaxKn: 22 } }], { white: ['main'] }) };
    const passage = planned({ ...one, forecast: steady({ kn: 12, gustKn: 20 }) });
    expect(passage.hours[0]!.standsShare).toBe(5 / 8);
    expect(printed(one, passage)).not.toContain("knife's edge");
  });
});
