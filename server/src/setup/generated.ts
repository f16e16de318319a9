import { completionSchema, type JsonSchema, schemaOf } from './json-schema.ts';
import { setupManual } from './manual.ts';
import { cribSpec, sheetSpec } from './sheet.ts';

/** Files that are made from the tables of this room: path from the repository root, and text. */
export function generatedSetupFiles(): { path: string; text: string }[] {
  const sheet = schemaOf(
    sheetSpec.shape,
    'Tapeproof setup sheet',
    'How one program is set up: machine, workpiece, workholding, tools. Everything is optional. Bare lengths are in "units"; a text may carry its own unit.',
  );
  const crib = schemaOf(
    cribSpec.shape,
    'Tapeproof crib',
    'Machines, tools and materials that the programs of a shop share. Everything is optional. Bare lengths are in "units"; a text may carry its own unit.',
  );
  const text = (schema: JsonSchema) => `${JSON.stringify(schema, null, 2)}\n`;
  return [
    { path: 'server/schemas/setup.schema.json', text: text(sheet) },
    { path: 'server/schemas/crib.schema.json', text: text(crib) },
    { path: 'client/schemas/setup.schema.json', text: text(completionSchema(sheet)) },
    { path: 'client/schemas/crib.schema.json', text: text(completionSchema(crib)) },
    { path: 'server/manual/setup-sheet.md', text: setupManual() },
  ];
}
