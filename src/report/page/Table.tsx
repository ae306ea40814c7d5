import type { ReactElement } from 'react';
import type { Report } from '../build-report.ts';
import { cellText, filledColumns, groupsOf } from '../cell.ts';
import type { Column, Entry, Field, Section } from '../section.ts';

const marks: Record<string, string> = { pass: '✓', fail: '✗', 'too close to call': '≈', 'not judged': '–' };

/** Fields that say what they are without their head, where a row is shown as a card. */
const plainFields: readonly Field[] = ['value', 'at'];

// A plain function, not a component: there are thousands of cells, and each component costs time.
function cellOf(report: Report, entry: Entry, { field, head }: Column): ReactElement {
  const text = cellText(report, entry, field);
  if (field === 'item')
    return (
      <th key={field} scope="row">
        {text}
      </th>
    );
  const mark = field === 'verdict' ? marks[text] : undefined;
  return (
    <td
      key={field}
      className={field}
      data-head={text === '' || plainFields.includes(field) ? undefined : head}
    >
      {mark ? `${mark} ${text}` : text}
    </td>
  );
}

/** A table with a heading row for each group; on a narrow screen every row becomes a small card. */
export function Table({ report, section }: { report: Report; section: Section }) {
  const columns = filledColumns(report, section);
  return (
    <table className={section.id}>
      <caption>{section.caption}</caption>
      <thead>
        <tr>
          {columns.map(({ field, head }) => (
            <th key={field} scope="col">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      {groupsOf(section).map(({ head, rows }) => (
        <tbody key={rows[0]?.place}>
          {head === undefined ? null : (
            <tr className="group">
              <th colSpan={columns.length} scope="rowgroup">
                {head}
              </th>
            </tr>
          )}
          {rows.map(({ place, entry }) => (
            <tr key={place}>{columns.map((column) => cellOf(report, entry, column))}</tr>
          ))}
        </tbody>
      ))}
    </table>
  );
}
