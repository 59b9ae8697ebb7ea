import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { InputError } from '../errors.js';
import { type CommandIo, EXIT } from './io.js';
import { version } from './version.js';

const NOTES = `
Exit codes: 0 plan complete, 1 write failure or a bug, 2 bad input or usage, 3 plan incomplete.
Planning aid only: the skipper decides. Check official charts, notices, forecasts and warnings.`;

/** Runs the command line: the arguments after the program's name, and where to write. Gives the exit code. */
export async function run(args: readonly string[], io: CommandIo): Promise<number> {
  let code: number = EXIT.complete;
  const program = new Command('windwardrobe')
    .description(
      'Apparent wind along a passage, the best sail plan for every hour, the hours on each sail and the sail changes.',
    )
    .version(version())
    .addHelpText('after', NOTES)
    .exitOverride()
    .configureOutput({ writeOut: (text) => io.out(text), writeErr: (text) => io.error(text) });
  choosing(
    program
      .command('plan')
      .description(
        'plan a passage: write hours.csv, plan.json, plan.md, tradeoff.csv, track.gpx, track.geojson and report.html, and print the totals',
      )
      .requiredOption('--route <file>', 'route: CSV name,lat,lon[,to_next], GPX or GeoJSON')
      .option(
        '--forecast <file>',
        'gridded forecast, CSV: time,lat,lon,u10,v10[,gust,current_u,current_v,wave_height,...]; repeat for several files, in any order',
        collected,
      )
      .option(
        '--climatology <file>',
        'mean wind of every month behind the forecast, or without one, CSV: month,lat,lon,u10,v10,wind_speed; repeat for several files',
        collected,
      )
      .requiredOption('--boat <file>', 'boat and wardrobe, JSON; names its polar files')
      .requiredOption('--depart <time>', 'departure with Z or an offset, like 2018-10-06T20:00Z')
      .requiredOption(
        '--out <folder>',
        'folder to write to; made if need be, files of an earlier plan are replaced',
        notEmpty,
      ),
  )
    .option('--labels <number>', 'how widely the search looks, 1 to 64; absent: 4')
    .option('--from <lat,lon>', 'replan at sea: sail what is left of the route from here, departing at --depart')
    .option('--plan-set <id>', 'the sail plan that is set at departure: leaving it is a sail change')
    .option('--without <sail>', 'a sail that may not be set; repeat for several', collected)
    .option('--wind-factor <number>', "the forecast's wind and gusts times this")
    .option('--wind-shift-hours <hours>', 'weather so many hours later than forecast, negative earlier; currents stay')
    .option(
      '--column <role=name[:unit]>',
      'a column of forecast or climatology by what it holds, like current_u=water_u:m/s; repeat for several',
      collected,
    )
    .option('--member <id>', 'the member of an ensemble to sail in')
    .addHelpText('after', NOTES)
    .action(async (options) => {
      // Loaded on demand, so that help answers at once.
      const { plan } = await import('./plan.js');
      code = await plan(options, io);
    });
  sailingMany(
    program
      .command('study')
      .description(
        'sail many passages: each route with each boat in each forecast and member from each start; write passages.csv, passages.jsonl, study.json, study.md and report.html. Stopped at any moment it goes on where it was when it is asked the same again',
      )
      .requiredOption('--boat <file>', 'boat and wardrobe; repeat for several', collected),
  )
    .option(
      '--weight <what=number>',
      'what a unit counts in the ranking of starts, the less the better; repeat for several',
      collected,
    )
    .option('--limit <what=number>', 'the chance to be over this is told; repeat for several', collected)
    .addHelpText('after', NOTES)
    .action(async (options) => {
      const { study } = await import('./study.js');
      code = await study(options, io);
    });
  owning(
    sailingMany(
      program
        .command('worth')
        .description(
          'is a sail worth its price: sail the same passages with wardrobe A and with wardrobe B; write worth.json, worth.csv, worth.md and report.html beside the files of the study. Asked again with other prices it sails nothing anew',
        )
        .requiredOption('--boat <file>', 'A: boat and wardrobe')
        .option('--against <file>', 'B: the same boat with another wardrobe')
        .option('--add <kind>', 'B: the same boat with a further sail of this kind ("windwardrobe sails" lists them)')
        .option('--area <m2>', 'area of the sail that is added; absent: by its kind and the rig')
        .option('--life-hours <hours>', 'hours that it lasts; absent: by its cloth')
        .option(
          '--price <money>',
          'what the new sails cost, or low,usual,high; absent: the boat file, or by their areas',
        )
        .option(
          '--rival <kind[=price]>',
          'a competitor beside it; repeat for several; absent: a cruising symmetric of the same area, twin headsails, a pole for the jib, as far as she has them not',
          collected,
        )
        .option('--no-rivals', 'no competitors'),
    ),
  )
    .addHelpText('after', NOTES)
    .action(async (options) => {
      const { worth } = await import('./worth.js');
      code = await worth(options, io);
    });
  owning(
    sailingMany(
      program
        .command('next-sail')
        .description(
          'which sail to buy next: try every kind that fits once on the same passages; write next-sail.json, next-sail.csv, next-sail.md and report.html beside the files of the study',
        )
        .requiredOption('--boat <file>', 'boat and wardrobe'),
    ),
  )
    .addHelpText('after', NOTES)
    .action(async (options) => {
      const { nextSail } = await import('./nextSail.js');
      code = await nextSail(options, io);
    });
  program
    .command('crossover')
    .description(
      'which sail plan is the fastest over true wind and angle, which sail is never used, where there is none',
    )
    .requiredOption('--boat <file>', 'boat and wardrobe, JSON; speeds are estimated where it names no polars')
    .option(
      '--out <folder>',
      'folder for crossover.csv, crossover.json, crossover.svg and report.html; absent: printed only',
      notEmpty,
    )
    .option('--night', 'without the sails that are not set in the dark')
    .option('--without <sail>', 'a sail that may not be set; repeat for several', collected)
    .option('--gust-factor <number>', "limit gust over mean wind; absent: the boat's house rule, or 1.3")
    .addHelpText('after', NOTES)
    .action(async (options) => {
      const { crossover } = await import('./crossover.js');
      code = await crossover(options, io);
    });
  program
    .command('page')
    .description(
      'serve a page on this machine that plans in the browser: files are put on it and never leave the machine',
    )
    .option('--port <number>', 'port to serve at; 0: any that is free', '8417')
    .addHelpText('after', NOTES)
    .action(async (options) => {
      const { page } = await import('./page.js');
      code = await page(options, io);
    });
  program
    .command('check')
    .description('read files, say what is in them, and everything that is wrong with them')
    .argument('<files...>', 'routes, forecasts, climatologies, boats, polars and plans, in any order')
    .option(
      '--column <role=name[:unit]>',
      'a column of forecast or climatology by what it holds; repeat for several',
      collected,
    )
    .option('--member <id>', 'the member of an ensemble to look at; absent: all')
    .addHelpText('after', NOTES)
    .action(async (files, options) => {
      const { check } = await import('./check.js');
      code = await check(files, options, io);
    });
  program
    .command('sails')
    .description(
      'the catalogue of kinds of sail: windows, handling and needs by default, each number with where it comes from',
    )
    .argument('[kind]', 'one kind in full')
    .option('--json', 'all of it for programs')
    .addHelpText('after', NOTES)
    .action(async (kind, options) => {
      const { sails } = await import('./sails.js');
      code = sails(kind, options, io);
    });
  const boat = program.command('boat').description('a boat file: see what follows from it, or start one');
  boat
    .command('show')
    .description('show a boat with every window, area, operation and sail plan that follows from the kinds and the rig')
    .argument('<file>', 'boat file')
    .option('--json', 'all of it for programs')
    .addHelpText('after', NOTES)
    .action(async (file, options) => {
      const { showBoat } = await import('./boat.js');
      code = await showBoat(file, options, io);
    });
  boat
    .command('speeds')
    .description('the speeds of every sail plan, estimated where the boat file names no polars')
    .argument('<file>', 'boat file')
    .option('--plan <id>', 'a sail plan; repeat for several; absent: all', collected)
    .option('--out <file>', 'polar file (CSV) to write; a file that is there is not written over', notEmpty)
    .option('--json', 'all of it for programs')
    .addHelpText('after', NOTES)
    .action(async (file, options) => {
      const { speeds } = await import('./speeds.js');
      code = await speeds(file, options, io);
    });
  boat
    .command('new')
    .description('write a commented boat file to start from')
    .addOption(new Option('--hull <type>', 'sort of hull').choices(['catamaran', 'monohull']).default('catamaran'))
    .option('--name <text>', "the boat's name")
    .option('--crew <number>', 'people who stand watches')
    .option('--rig <I,J,P,E>', 'rig dimensions in metres, like 17.2,5.1,16.5,6')
    .option('--waterline <metres>', 'length of the waterline')
    .option('--displacement <kg>', 'displacement as she sails')
    .option('--hull-centres <metres>', 'between the centrelines of the hulls of a catamaran')
    .option('--sprit <metres>', 'how far a bowsprit reaches beyond the forestay')
    .option('--pole <metres>', 'length of a spinnaker or whisker pole')
    .option('--inner-forestay', 'she has an inner forestay')
    .option(
      '--sail <kind>',
      'a sail aboard, by its kind ("windwardrobe sails" lists them); repeat for several',
      collected,
    )
    .option('--out <file>', 'file to write; absent: printed. A file that is there is not written over', notEmpty)
    .addHelpText('after', NOTES)
    .action(async (options) => {
      const { newBoat } = await import('./boat.js');
      code = await newBoat(options, io);
    });
  try {
    await program.parseAsync([...args], { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof InputError) {
      const { asGiven } = await import('../describe/describe.js');
      io.error(`${asGiven(error).message}\n`);
      return EXIT.badInput;
    }
    if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.complete : EXIT.badInput;
    io.error(`a bug in windwardrobe: ${error instanceof Error ? error.message : String(error)}\n`);
    return EXIT.failure;
  }
}

/** The options of many passages: what is sailed, in which weather, from which starts, and how plans are chosen. */
const sailingMany = (command: Command): Command =>
  choosing(
    command
      .requiredOption('--route <file>', 'route; repeat for several', collected)
      .option(
        '--forecast <file>',
        'gridded forecast; repeat for several, each a weather of its own, with each of its members',
        collected,
      )
      .option(
        '--climatology <file>',
        'monthly climatology: behind each forecast, or alone; repeat for several files of one',
        collected,
      )
      .option(
        '--draws <number>',
        'drawings of synthetic weather from the climatology, each a weather of its own; 0 is its mean wind; absent: 20 without a forecast, else 0',
      )
      .option('--seed <number>', 'first seed of the drawings: the same seed is the same weather; absent: 1')
      .option(
        '--beside <file>',
        'a file of currents or waves that is read with each forecast; repeat for several',
        collected,
      )
      .requiredOption('--depart-from <time>', 'first departure, with Z or an offset')
      .option('--depart-to <time>', 'no departure after this; absent: the first alone')
      .option('--depart-every <hours>', 'hours from one departure to the next', '24')
      .requiredOption(
        '--out <folder>',
        'folder to write to; made if need be, a finished study that is there is replaced',
        notEmpty,
      )
      .option('--threads <number>', 'worker threads; absent: one for each core')
      .option('--member <id>', 'a member of the ensembles; repeat for several; absent: all', collected),
  )
    .option('--labels <number>', 'how widely the search looks, 1 to 64; absent: 1')
    .option('--without <sail>', 'a sail that may not be set; repeat for several', collected)
    .option('--wind-factor <number>', "the forecasts' wind and gusts times this")
    .option('--wind-shift-hours <hours>', 'weather so many hours later than forecast, negative earlier; currents stay')
    .option('--column <role=name[:unit]>', 'a forecast column by what it holds; repeat for several', collected);

/** What an owner reckons with, in the currency of the boat file; each may be low,usual,high. */
const owning = (command: Command): Command =>
  command
    .option('--hour-value <money>', 'what an hour on the way is worth; absent: nothing')
    .option('--night-change-value <money>', 'what a sail change by night is worth; absent: nothing')
    .option('--litre-price <money>', 'what a litre of fuel costs; absent: nothing')
    .option('--tears <number>', 'how often a new sail is torn in a hundred hours flown; absent: never')
    .option('--tear-cost <money>', 'what mending it costs; absent: a tenth of the price')
    .option('--resale <shares>', 'of the price: after a year, of that each year after, at least; absent: 0.6,0.85,0.1')
    .option('--years <number>', 'years the owner keeps her; absent: 5')
    .option('--miles-per-year <Nm>', 'miles sailed a year; absent: 3000')
    .option(
      '--speed-band <percent>',
      'how far speeds under a new sail may be off; absent: 7 where they are estimated, else nothing',
    )
    .option('--sample <number>', 'passages sailed again for each uncertain input; absent: 24');

/** The options of how sail plans are chosen, which one passage and many share. */
const choosing = (command: Command): Command =>
  command
    .addOption(choiceOption())
    .option(
      '--price-per-change <minutes>',
      'what a sail change is worth in minutes of arrival time; absent: by the crew',
    )
    .option('--crew <number>', 'people who stand watches; absent: as the boat file says')
    .option('--horizon <hours>', 'how far ahead the weather is known when she is planned; absent: all of it')
    .option('--replan-every <hours>', 'with a horizon, hours from one planning to the next; absent: 12')
    .option('--arrive-daylight', 'arrive between sunrise and sunset')
    .option('--squalls', 'allow for squalls, which a forecast on a grid cannot show')
    .option('--squall-chance <share>', 'chance of a squall in an hour, 0 to 1; absent: by latitude')
    .option('--gust-margin <factor>', 'factor on gusts for safety')
    .option('--least-hours <hours>', 'whole hours between sail changes, at least')
    .option('--changes-in-dark <what>', 'any, not-flying or none: what may be changed in the dark')
    .option('--night-reef-above <knots>', 'in the dark reefed a step further in more mean wind than this')
    .option('--wave-max <sail=metres>', 'highest waves for a sail; repeat for several', collected)
    .option('--gybes-in-dark', 'gybe flying sails in the dark too')
    .option('--motor-below <knots>', 'motor where no sail plan makes as much good; absent: never');

const choiceOption = () =>
  new Option(
    '--choice <how>',
    'planned: the best sequence, changes and house rules reckoned; fastest: each hour by itself',
  )
    .choices(['planned', 'fastest'])
    .default('planned');

function collected(text: string, before: readonly string[] | undefined): readonly string[] {
  return [...(before ?? []), notEmpty(text)];
}

function notEmpty(text: string): string {
  if (text.trim() === '') throw new InvalidArgumentError('It is empty.');
  return text;
}
