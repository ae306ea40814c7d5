import type { QuantityRead } from '../../quantity/read-quantity.ts';
import { showQuantity } from '../../quantity/show.ts';
import { normal } from './match-words.ts';
import { isNotReadNow } from './read-doubtful.ts';
import type { Measure } from './read-measure.ts';
import { light } from './read-phrases.ts';
import { bare } from './reading.ts';

/** Things that are measured too: a reading of one of them is no answer about another. */
const subjects =
  /\b(air|room|outside|outdoors|ambient|methanol|methoxide|water|glycerin|oil|fuel|wall|jacket|condenser|heater|recipe|label|acid|sample|jar)\b/g;

/** Numbers that are no second reading: times of day, names of vessels, and quantities with a unit of their own. */
const harmless =
  /\d{1,2}:\d{2}|\b(tank|batch|vessel|drum|flask|sample|run|step|thermometer|no\.?|number|#)\s*\d+|\d+([.,]\d+)?\s*(°|%|(c|f|l|ml|cc|min|mins|minutes?|h|hours?|days?|weeks?|am|pm|kg|g|lb|oz|gal|gallons?|m|ft|st|nd|rd|th|x)\b)/gi;

function namesAnother(around: string, measure: Measure): boolean {
  const about = measure.about;
  if (!about) return false;
  return [...bare(around).matchAll(subjects)].some(([subject]) => !about.has(subject));
}

/** Words that only say that something was read. */
const telling = new Set(
  `about around roughly exactly nearly almost close say near read reads reading gauge scale thermometer meter dial steady stable
  holding rising falling climbing dropping slowly still total altogether sum took takes take taken needed used left mark line point
  give take between celsius fahrenheit degrees degree deg not quite sure no half quarter ago approximately measured weighed dipped
  counted checked looked maybe perhaps probably something somewhere like than it's its that's it my ours one once time times far per
  hour hours minute minutes day days ish so and a bit little past`.split(/\s+/),
);

/** Whether something is said beside a reading that is neither the question's word nor one of telling. */
function saysMore(around: string, measure: Measure): boolean {
  const { about } = measure;
  if (!about) return false;
  const words = normal(around.replace(harmless, ' ').replace(/[();]/g, ' ')).split(' ');
  return words.some(
    (word) => /\p{L}{2}/u.test(word) && !telling.has(word) && !light.has(word) && !about.has(word),
  );
}

/** "2 x 75 L", "100 L plus 50 L", "two 5 gallon jugs": worked out by me, not read. */
function isSum(span: string): boolean {
  const own = span.replace(/plus\s*(or|\/)?\s*minus|\+\s*\/?\s*[-−]/gi, ' ');
  return /\d\s*\D{0,12}?(\bx\b|×|\*|\btimes\b|\+|\bplus\b)/i.test(own);
}

/** "150 L tank": what it holds, not what is in it. */
function isSize(behind: string): boolean {
  return /^[\s-]*(tank|drum|vessel|barrel|can|jug|bucket|heater|carboy|tote)\b/i.test(behind);
}

/** Why a reading is not taken at its word; nothing when the words around it only say it. */
export function doubtAround(measure: Measure, text: string, read: QuantityRead): string | undefined {
  const around = `${text.slice(0, read.spanStart)} ; ${text.slice(read.spanEnd)}`;
  const shown = showQuantity(read.value, measure.unit, {});
  if (read.bound) {
    const side = read.bound === 'above' ? 'above' : 'below';
    return `That says only which side of ${shown} it is: ${side}. Is ${shown} what it reads?`;
  }
  if (isSum(text.slice(read.spanStart, read.spanEnd))) return `I make that ${shown}. Is it so?`;
  if (isSize(text.slice(read.spanEnd))) return `Is ${shown} what you measured, not the size of something?`;
  if (isNotReadNow(around)) return `Is ${shown} what you read, now?`;
  const more = namesAnother(around, measure) || saysMore(around, measure);
  if (more) return `Is ${shown} the whole answer to what I asked?`;
  if (/\d/.test(around.replace(harmless, ' '))) return `I see more than one number. Is it ${shown}?`;
  return undefined;
}

/** "from 50 to 54": a change, not a reading. */
export function isChange(text: string): boolean {
  return /\bfrom\b.+\bto\b/i.test(text);
}
