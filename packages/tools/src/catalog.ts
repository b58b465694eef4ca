import pg from 'pg';

const PARTS: readonly { title: string; sql: string }[] = [
  {
    title: 'Tables',
    sql: `SELECT format(E'%s (\\n%s\\n)', class.relname, string_agg(
        format('  %s %s%s%s', attribute.attname, format_type(attribute.atttypid, attribute.atttypmod),
          CASE WHEN attribute.attnotnull THEN ' NOT NULL' ELSE '' END,
          coalesce(' DEFAULT ' || pg_get_expr(def.adbin, def.adrelid), '')), E',\\n' ORDER BY attribute.attnum)) AS line
      FROM pg_class AS class
      JOIN pg_attribute AS attribute ON attribute.attrelid = class.oid AND attribute.attnum > 0 AND NOT attribute.attisdropped
      LEFT JOIN pg_attrdef AS def ON def.adrelid = class.oid AND def.adnum = attribute.attnum
      WHERE class.relkind = 'r' AND class.relnamespace = 'public'::regnamespace AND class.relname <> '_prisma_migrations'
      GROUP BY class.relname ORDER BY class.relname`,
  },
  {
    title: 'Constraints',
    sql: `SELECT format('%s: %s %s', conrelid::regclass, conname, pg_get_constraintdef(oid)) AS line FROM pg_constraint
      WHERE connamespace = 'public'::regnamespace AND contype <> 'n' AND conrelid::regclass::text <> '_prisma_migrations'
      ORDER BY conrelid::regclass::text, conname`,
  },
  {
    title: 'Indexes',
    sql: `SELECT indexdef AS line FROM pg_indexes WHERE schemaname = 'public' AND tablename <> '_prisma_migrations'
      ORDER BY tablename, indexname`,
  },
  {
    title: 'Triggers',
    sql: `SELECT format('%s (enabled %s)', pg_get_triggerdef(oid), tgenabled) AS line FROM pg_trigger WHERE NOT tgisinternal
      ORDER BY tgrelid::regclass::text, tgname`,
  },
  {
    title: 'Functions',
    sql: `SELECT pg_get_functiondef(oid) AS line FROM pg_proc WHERE pronamespace = 'public'::regnamespace ORDER BY proname`,
  },
  {
    title: 'Grants',
    sql: `SELECT format('%s: %s to %s', table_name, string_agg(privilege_type, ', ' ORDER BY privilege_type), grantee) AS line
      FROM information_schema.role_table_grants
      WHERE table_schema = 'public' AND grantee LIKE 'slackwater%' AND grantee <> 'slackwater_owner'
      GROUP BY table_name, grantee ORDER BY table_name, grantee`,
  },
  {
    title: 'Grants on columns',
    sql: `SELECT format('%s.%s: %s to %s', table_name, column_name, privilege_type, grantee) AS line
      FROM information_schema.column_privileges AS c
      WHERE table_schema = 'public' AND grantee LIKE 'slackwater%' AND grantee <> 'slackwater_owner'
        AND NOT EXISTS (SELECT FROM information_schema.role_table_grants AS t WHERE t.table_schema = c.table_schema
          AND t.table_name = c.table_name AND t.grantee = c.grantee AND t.privilege_type = c.privilege_type)
      ORDER BY table_name, column_name, privilege_type, grantee`,
  },
];

/** What a database holds, read from its catalogs: for people, and for a test that compares it. */
export async function catalogText(url: string): Promise<string> {
  const client = new pg.Client({ connectionString: url, application_name: 'slackwater-catalog' });
  await client.connect();
  try {
    let text = '-- Written by `npm run schema` from the catalogs of a migrated database. For reading; never applied.\n';
    for (const { title, sql } of PARTS) {
      const { rows } = await client.query<{ line: string }>(sql);
      text += `\n-- ${title}\n${rows.map(({ line }) => line).join('\n')}\n`;
    }
    return text;
  } finally {
    await client.end();
  }
}
