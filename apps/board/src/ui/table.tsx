import type { ReactNode } from 'react';
import { cx } from './class-names.ts';
import styles from './table.module.css';

export type Column<Row> = {
  head: string;
  /** Null: nothing to say. */
  of: (row: Row) => ReactNode;
  /** For screen readers alone: the column holds a button that says what it does. */
  hideHead?: boolean;
  className?: string | undefined;
};

type TableProps<Row> = {
  rows: readonly Row[];
  keyOf: (row: Row) => string;
  /** The first column names the row. */
  columns: readonly [Column<Row>, ...Column<Row>[]];
};

/** Rows to look something up in. Where columns have no room side by side, each cell takes a line of its own. */
export const Table = <Row,>({ rows, keyOf, columns }: TableProps<Row>) => {
  const [name, ...others] = columns;
  return (
    <table className={styles.table}>
      <thead>
        <tr>
          {columns.map(({ head, hideHead }) => (
            <th key={head} scope="col">
              <span className={cx(hideHead && 'sr')}>{head}</span>
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={keyOf(row)}>
            <th scope="row" className={name.className}>
              {name.of(row)}
            </th>
            {others.map((column) => (
              <Cell key={column.head} column={column} row={row} />
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
};

const Cell = <Row,>({ column, row }: { column: Column<Row>; row: Row }) => {
  const said = column.of(row);
  return (
    <td className={column.className} data-head={column.hideHead ? undefined : column.head}>
      {said !== null && <div>{said}</div>}
    </td>
  );
};
