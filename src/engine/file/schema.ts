import { z } from 'zod'
import { drawer } from '../parts/part.ts'
import { supply } from '../supply/supply.ts'

const note =
  'Made from the reader of this version. A file can fit this schema and still be refused: rules that join several fields (places that name parts, rising ranges, ids used twice) are checked by the reader alone.'

const published = (title: string, schema: z.ZodType) => ({
  title,
  $comment: note,
  ...z.toJSONSchema(schema, { target: 'draft-2020-12', io: 'input' }),
})

/** JSON Schema (draft 2020-12) of the two kinds of file, by the name of the schema file. */
export const fileSchemas = (): Record<'supply' | 'drawer', object> => ({
  supply: published('Gapwright supply file, version 1', supply),
  drawer: published('Gapwright drawer file, version 1', drawer),
})
