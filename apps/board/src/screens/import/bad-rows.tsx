import type { FieldProblem } from '@slackwater/contract';
import styles from './import.module.css';

/** Every listed problem with its line and column, what stood there and what may. */
export const BadRows = ({ problems }: { problems: readonly FieldProblem[] }) => (
  <section className={styles.scroll} aria-label="Bad lines, scrollable">
    <table className={styles.table}>
      <thead>
        <tr>
          <th scope="col">Where</th>
          <th scope="col">What stands there</th>
          <th scope="col">What may stand there</th>
          <th scope="col">What is wrong</th>
        </tr>
      </thead>
      <tbody>
        {problems.map(({ field, value, allowed, message }) => (
          <tr key={`${field} ${message}`}>
            <th scope="row">{field}</th>
            <td>{String(value) === '' ? 'nothing' : String(value)}</td>
            <td>{allowed}</td>
            <td>{message}</td>
          </tr>
        ))}
      </tbody>
    </table>
  </section>
);
