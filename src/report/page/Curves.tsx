import { type MarkKind, markKinds, type Panel } from '../curve.ts';
import { showTime } from '../show-time.ts';
import { Curve, markPath } from './Curve.tsx';

function Shape({ kind }: { kind: MarkKind }) {
  return (
    <svg className="shape" viewBox="-8 -8 16 16" aria-hidden="true">
      <path d={markPath(kind)} className={kind === 'cleared' ? 'hollow' : 'full'} />
    </svg>
  );
}

function Key({ panels }: { panels: readonly Panel[] }) {
  const kinds = (Object.keys(markKinds) as MarkKind[]).filter((kind) =>
    panels.some(({ marks }) => marks.some((one) => one.kind === kind)),
  );
  return (
    <div className="key">
      <p>
        A dot is a reading, the upright stroke through it its ±. A dashed curve and a double stroke on the
        axis stand for a long time without an entry, drawn short. Between readings the curve is a guess.
      </p>
      <ul>
        {kinds.map((kind) => (
          <li key={kind}>
            <Shape kind={kind} /> {markKinds[kind]}
          </li>
        ))}
      </ul>
    </div>
  );
}

function Events({ panel }: { panel: Panel }) {
  return (
    <ol>
      {panel.marks.map((mark) => (
        <li key={`${mark.record} ${mark.kind}`}>
          <Shape kind={mark.kind} /> {showTime(mark.at).slice(5)} {mark.says}
        </li>
      ))}
    </ol>
  );
}

export function Curves({ panels }: { panels: readonly Panel[] }) {
  if (panels.length === 0) return null;
  return (
    <>
      <Key panels={panels} />
      <div className="curves">
        {panels.map((panel, index) => (
          <figure key={`${panel.title} ${panel.readings[0]?.record}`}>
            <figcaption>{panel.title}</figcaption>
            <Curve panel={panel} id={`curve-${index + 1}`} />
            {panel.line ? <p className="line">Dotted line: {panel.line.says}.</p> : null}
            <Events panel={panel} />
          </figure>
        ))}
      </div>
    </>
  );
}
