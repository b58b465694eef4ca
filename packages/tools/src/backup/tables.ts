import type pg from 'pg';
import { NOT_BACKED_UP, type TableHead } from './format.ts';

/** All tables with their columns, what others point at first, so that they can be filled in this order. */
export async function tablesInOrder(client: pg.Client): Promise<TableHead[]> {
  const { rows: tables } = await client.query<TableHead>(
    `SELECT class.relname AS table,
       array_agg(attribute.attname::text ORDER BY attribute.attnum)
         FILTER (WHERE attribute.attgenerated = '') AS columns
     FROM pg_class AS class
     JOIN pg_attribute AS attribute ON attribute.attrelid = class.oid AND attribute.attnum > 0 AND NOT attribute.attisdropped
     WHERE class.relkind = 'r' AND class.relnamespace = 'public'::regnamespace AND class.relname <> ALL ($1)
     GROUP BY class.relname ORDER BY class.relname`,
    [NOT_BACKED_UP],
  );
  const { rows: arrows } = await client.query<{ from: string; to: string }>(
    `SELECT conrelid::regclass::text AS from, confrelid::regclass::text AS to
     FROM pg_constraint WHERE contype = 'f' AND connamespace = 'public'::regnamespace AND conrelid <> confrelid`,
  );
  return sorted(tables, arrows);
}

function sorted(tables: readonly TableHead[], arrows: readonly { from: string; to: string }[]): TableHead[] {
  const placed: TableHead[] = [];
  const isPlaced = (name: string) => placed.some(({ table }) => table === name);
  while (placed.length < tables.length) {
    const ready = tables.filter(
      ({ table }) => !isPlaced(table) && arrows.every(({ from, to }) => from !== table || isPlaced(to)),
    );
    if (ready.length === 0) throw new Error('The tables point at each other in a circle: no order to fill them in.');
    placed.push(...ready);
  }
  return placed;
}

export const quoted = (names: readonly string[]): string =>
  names.map((name) => `"${name.replaceAll('"', '""')}"`).join(', ');
