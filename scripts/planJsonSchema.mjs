import { toJsonSchema } from '@valibot/to-json-schema';

/**
 * The JSON Schema of a plan file, as text, from the schema the app itself reads plans through.
 * What only meaning can say (yarns that exist, turns that close) `checkPlan` checks on top.
 *
 * @param {import('valibot').GenericSchema} planSchema
 * @param {Record<string, import('valibot').GenericSchema>} parts schemas to be named under `$defs`
 */
export function planJsonSchema(planSchema, parts) {
  const { $schema, ...schema } = toJsonSchema(planSchema, {
    target: 'draft-2020-12',
    typeMode: 'input',
    definitions: parts,
    // A name is trimmed when it is read, so one of spaces alone is no name.
    overrideAction: ({ valibotAction, jsonSchema }) =>
      valibotAction.type === 'trim' ? { ...jsonSchema, pattern: '\\S' } : undefined,
  });
  const titled = { $schema, title: 'Fellmark plan', ...schema };
  return `${JSON.stringify(titled, null, 2)}\n`;
}
