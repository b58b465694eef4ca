import type { Solution } from '@slackwater/domain';
import { formatWhole } from '@slackwater/domain/words/numbers';
import { Button } from '../../../ui/button.tsx';
import styles from './bag-matrix.module.css';

type BagMatrixProps = {
  formulary: readonly Solution[];
  onChoose: (solutionId: string, labelledMl: number) => void;
};

const detail = (solution: Solution): string => {
  if (solution.chambers > 1) return `${solution.chambers} chambers`;
  return solution.label.replace(solution.strength, '').trim();
};

/**
 * All bags that the ward keeps; the nurse touches what the label in the hand says. Nothing is marked as the one that is
 * prescribed: the label is read, not confirmed.
 */
export const BagMatrix = ({ formulary, onChoose }: BagMatrixProps) => {
  const volumes = [...new Set(formulary.flatMap((solution) => solution.bagMl))].sort((a, b) => a - b);
  return (
    <table className={styles.matrix}>
      <thead>
        <tr>
          <th scope="col">Label says</th>
          {volumes.map((ml) => (
            <th key={ml} scope="col">
              mL
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {formulary.map((solution) => (
          <tr key={solution.id}>
            <th scope="row">
              {solution.strength} <small>{detail(solution)}</small>
            </th>
            {volumes.map((ml) => (
              <td key={ml}>
                {solution.bagMl.includes(ml) && (
                  <Button onPress={() => onChoose(solution.id, ml)}>
                    <span className="sr">{solution.strength}, </span>
                    {formatWhole(ml)}
                    <span className="sr"> mL</span>
                  </Button>
                )}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
};
