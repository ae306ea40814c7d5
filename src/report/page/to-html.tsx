import { renderToStaticMarkup } from 'react-dom/server';
import type { Report } from '../build-report.ts';
import { Page } from './Page.tsx';

/** The report as one page that needs nothing else: no script, no picture, no font, no network. */
export function toHtml(report: Report): string {
  return `<!doctype html>\n${renderToStaticMarkup(<Page report={report} />)}\n`;
}
