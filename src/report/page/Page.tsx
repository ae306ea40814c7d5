import type { Report } from '../build-report.ts';
import { intro, timesNote } from '../intro.ts';
import type { Section } from '../section.ts';
import { Curves } from './Curves.tsx';
import { pageStyle } from './page-style.ts';
import { Table } from './Table.tsx';

// Nothing is fetched and nothing runs, whatever stands in the log.
const policy = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

function Contents({ sections }: { sections: readonly Section[] }) {
  return (
    <nav aria-label="Contents">
      <ul>
        {sections.map(({ id, title }) => (
          <li key={id}>
            <a href={`#${id}`}>{title}</a>
          </li>
        ))}
        <li>
          <a href="#sources">Sources</a>
        </li>
      </ul>
    </nav>
  );
}

function SectionPart({ report, section }: { report: Report; section: Section }) {
  const { id, title, lead, entries, none } = section;
  return (
    <section id={id} aria-labelledby={`${id}-head`}>
      <h2 id={`${id}-head`}>{title}</h2>
      {entries.length === 0 ? <p>{none}</p> : null}
      {id === 'curve' ? <Curves panels={report.panels} /> : null}
      {lead && entries.length > 0 ? <p>{lead}</p> : null}
      {entries.length > 0 ? <Table report={report} section={section} /> : null}
    </section>
  );
}

function Sources({ sources }: Pick<Report, 'sources'>) {
  return (
    <section id="sources" aria-labelledby="sources-head">
      <h2 id="sources-head">Sources</h2>
      {sources.length === 0 ? <p>No source was needed.</p> : null}
      <ol>
        {sources.map(({ id, cite, seen }) => (
          <li key={id}>
            {cite} {seen ? <span className="seen">({seen})</span> : null}
          </li>
        ))}
      </ol>
    </section>
  );
}

export function Page({ report }: { report: Report }) {
  return (
    <html lang="en">
      <head>
        <meta charSet="utf-8" />
        <meta httpEquiv="Content-Security-Policy" content={policy} />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <title>{report.title}</title>
        <style>{pageStyle}</style>
      </head>
      <body>
        <header>
          <h1>{report.title}</h1>
          <p>{intro}</p>
          <p>{timesNote}</p>
          <Contents sections={report.sections} />
        </header>
        <main>
          {report.sections.map((section) => (
            <SectionPart key={section.id} report={report} section={section} />
          ))}
          <Sources sources={report.sources} />
        </main>
        <footer>
          <h2>Where this report comes from</h2>
          <dl>
            {report.foot.map(({ item, value }) => (
              <div key={item}>
                <dt>{item}</dt>
                <dd>{value}</dd>
              </div>
            ))}
          </dl>
        </footer>
      </body>
    </html>
  );
}
