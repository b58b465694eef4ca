import type { FieldProblem } from '@slackwater/contract';
import styles from './import.module.css';

/** Every listed problem: its line and column, what is wrong with what stands there, what may stand there. */
export const BadRows = ({ problems }: { problems: readonly FieldProblem[] }) => (
  <table className={styles.table}>
    <thead>
      <tr>
        <th scope="col">Where</th>
        <th scope="col">What is wrong, and what may stand there</th>
      </tr>
    </thead>
    <tbody>
      {problems.map(({ field, allowed, message }) => (
        <tr key={`${field} ${message}`}>
          <th scope="row">{field}</th>
          <td>
            {message}
            <span className={styles.allowed}>Allowed: {allowed}</span>
          </td>
        </tr>
      ))}
    </tbody>
  </table>
);
