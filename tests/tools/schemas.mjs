import { writeFileSync } from 'node:fs';
import { toJsonSchema } from '@valibot/to-json-schema';
import { boatSchema } from '../../dist/boat/schema.js';
import { planSchema } from '../../dist/output/planSchema.js';

const SCHEMAS = {
  boat: [
    boatSchema,
    'Boat file of windwardrobe',
    'A boat and her wardrobe. What relates one value to another (ids, rising angles) is checked on reading.',
  ],
  plan: [
    planSchema,
    'plan.json of windwardrobe',
    'A passage as planned: options, inputs, totals, and the log hour by hour.',
  ],
};

/** The JSON Schemas as they are published, by file name. */
export function schemaTexts() {
  return Object.fromEntries(
    Object.entries(SCHEMAS).map(([name, [schema, title, description]]) => {
      const { $schema, ...rest } = toJsonSchema(schema, { target: 'draft-2020-12', ignoreActions: ['finite'] });
      return [`${name}.schema.json`, `${JSON.stringify({ $schema, title, description, ...rest }, null, 2)}\n`];
    }),
  );
}

if (process.argv[1] === new URL(import.meta.url).pathname) {
  for (const [name, text] of Object.entries(schemaTexts())) writeFileSync(`docs/schemas/${name}`, text);
}
