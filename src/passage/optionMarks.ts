import { COMPUTED_BY, DEFAULT_HOUSE, type SettledOptions } from './options.js';

/** Where defaults of house rules that are no placeholders come from. */
const FROM: Readonly<Record<string, string>> = {
  gustFactor: 'from a source: Harper, Kepert & Ginger 2010, WMO/TD-1555, table 1.1',
  squallFactor: 'from a source: Yachting World, gusts and squalls (S48)',
};

/**
 * For every option of a plan, by its path, where its value comes from: given, or a default with its source or mark. A rule that was
 * given as the default has it is told as the default.
 */
export function optionMarks(options: SettledOptions): Readonly<Record<string, string>> {
  const { house, placeholders } = options;
  const ofRules = Object.entries(house).map(([rule, value]) => {
    const isDefault = JSON.stringify(value) === JSON.stringify(DEFAULT_HOUSE[rule as keyof typeof DEFAULT_HOUSE]);
    return [`house.${rule}`, placeholders.some((name) => name === rule) ? PLACEHOLDER : markOf(rule, value, isDefault)];
  });
  const others = Object.entries(options).flatMap(([name, value]) => {
    if (name === 'house' || name === 'placeholders') return [];
    if (Object.hasOwn(COMPUTED_BY, name))
      return [
        [
          name,
          COMPUTED_BY[name as keyof typeof COMPUTED_BY] === value
            ? 'default, our own choice: how finely it is computed'
            : 'given',
        ],
      ];
    return [
      [name, isUnasked(value) ? 'not asked for' : name === 'choice' && value === 'planned' ? 'default' : 'given'],
    ];
  });
  return Object.fromEntries([...others, ...ofRules]);
}

const PLACEHOLDER = 'default, a PLACEHOLDER without a source';

function markOf(rule: string, value: unknown, isDefault: boolean): string {
  if (!isDefault) return 'given, or by her polars or crew';
  if (FROM[rule] !== undefined) return `default, ${FROM[rule]}`;
  if (rule === 'gybesByDay') return 'default: common practice, no source';
  return isUnasked(value) || value === 'any' || JSON.stringify(value) === '{}'
    ? 'not asked for'
    : 'as the default has it, which is a placeholder without a source';
}

/** Nothing, no, or what changes nothing. */
const isUnasked = (value: unknown) =>
  value === null || value === false || value === 0 || value === 1 || (Array.isArray(value) && value.length === 0);
