/** A line longer than this is no answer; reading it would only take time. */
export const longestLine = 2000;

const substance = 'lye|caustic|potash|hydroxide|methanol|methoxide|acid|chemicals?|oil|fuel|glycerin|stuff';
const bodyPart =
  'eyes?|face|mouth|skin|hands?|arms?|fingers?|legs?|foot|feet|neck|throat|lungs?|nose|chest|stomach|belly';
const somebody = 'me|my|him|his|her|us|our|them|their|somebody|someone|kid|child|son|daughter|wife|husband';
const vesselWord =
  'it|its|tank|drum|lid|barrel|vessel|reactor|carboy|bottle|can|jug|pot|kettle|heater|everything';

/** Somebody is hurt, breathes vapour or swallowed something. */
const person = [
  'hurt|injured|splashed|swallowed|collapsed|faint(?:ed|ing)|unconscious|passed out|bleeding|electrocuted|electric shock',
  'dizzy|light ?headed|headache|head (?:is )?splitting|splitting head\\w*|coughing|choking|gasping|short of breath|throwing up|vomit(?:ed|ing)?|seizure|nause(?:a|ous)',
  'not breathing|(?:cant|cannot|can not|hard to) (?:get (?:any |my )?)?breathe?|head (?:hurts|aches|is spinning|spins)',
  '(?:feel|feels|feeling|felt) (?:\\w+ )?(?:sick|ill|unwell|faint|drunk|strange|weird|funny)',
  'blurr(?:y|ed)|(?:going|gone|went) blind|(?:i|he|she) (?:cant|cannot) see (?:properly|well|right|clearly|straight|any ?more)$',
  `in(?:to)? (?:my|his|her|the|one|both|their) (?:\\w+ )?(?:eyes?|mouth|throat|lungs)|in the eyes?`,
  `(?:${bodyPart}) (?:\\w+ )?(?:\\w+ )?(?:sting\\w*|burn\\w*|hurts?|hurting|itch\\w*|numb|red|sore|blister\\w*|blurr\\w*|water(?:s|ing))`,
  `(?:sting|burn|burnt|burned|scald|scalded|cut|shock)(?:s|ed|ing)? (?:my|me|his|him|her|myself|himself|herself|our) ?`,
  `(?:spil|splash|spray|drip|pour|squirt|slop)\\w* (?:\\w+ ){0,4}(?:on|over|onto|down|in|into|at)(?: (?:to|the))? (?:${somebody})\\b`,
  `(?:${substance}|some|it|a bit|a drop|drops) (?:\\w+ ){0,2}(?:on|onto|over|down) (?:${somebody})(?: (?:\\w+ )?(?:${bodyPart}|clothes|shirt|lap|boots?|shoes?))?$`,
  '(?:it|that|this) (?:still |really )?burns(?: a bit| a lot| bad\\w*| like \\w+)?$',
  `(?:drank|drunk|ate|licked|sipped) (?:some|the|of|it|from|a bit|(?:${substance}))`,
  '(?:kid|child|son|daughter|boy|girl|dog|cat|he|she|toddler|baby) (?:has )?(?:drank|drunk|swallowed|ate|eaten|licked)',
];

/** Fire, smoke, a bang. */
const fire = [
  'fire(?! (?:extinguisher|blanket|bucket|service|door|station|department|brigade|office|marshal|code|class|point))',
  'flames?|shimmer\\w*|burning|explo(?:sion|des?|ded|ding)|blew up|blown up|blowing up|alight|ablaze|red hot|melting',
  'smok(?:e|es|ing)|sparking|sparks? (?:fly|flying|from|coming|everywhere|out|at|in)|(?:see|saw|are|were|lots of) sparks?|sparks',
  '(?:loud|big|huge|a|heard|went) (?:bang|boom|blast)|bang',
];

/** Vapour, spills, pressure, a tank out of hand. */
const plant = [
  'i (?:can |do |still |just )?smell (?:\\w+ )?(?:gas|smoke|alcohol|methanol|burning|burnt|spirits?|solvent|fumes?|chemicals?|something|weird|strange|funny|odd)',
  'smell(?:s|ing)? (?:\\w+ )?(?:of |like )?(?:gas|smoke|alcohol|methanol|burning|solvent|spirits?|weird|strange|funny|odd)',
  '(?:stink|reek|pong|whiff)s?(?:ing)? (?:\\w+ )?(?:of |like )?(?:gas|smoke|alcohol|methanol|meths?|burning|spirits?)',
  'smell(?:s|ing)? (?:of |like )meths?|(?:alcohol|methanol|meths?) (?:smell|stink|reek|vapou?rs?)|(?:alcohol|methanol|meths?) in the air',
  '(?:vent|condenser) (?:is |starts |started |just )*(?:blowing|steaming|spitting|puffing)|(?:blowing|shooting|pouring) (?:out )?(?:steam|vapou?r|methanol)',
  '(?:condenser|cooling) (?:water )?(?:has |is )?(?:stopped|failed|off|broken|ran dry)|steam (?:coming|blowing|pouring|shooting)',
  '(?:lid|cap|hose|cover|bung|valve|plug|pipe) (?:has |just |is )*(?:blew|blown|popped|burst|flew|flown|came) (?:off|out|open)',
  '(?:reactor|processor|tank|vessel|heater|temp\\w*) (?:has |is |just )*(?:gone|shot|jumped|raced|racing|run|ran) (?:up |right |way )*(?:to|past|over|away)',
  'fumes|(?:alarm|detector|sensor) (?:is |has |just )?(?:beep\\w*|going off|gone off|went off|ringing|rings|screaming)',
  `(?:spilled|spilt|spilling|leaking|gushing|pouring out|spraying)`,
  `(?:${vesselWord}|vent|valve|seal|hose) (?:is |are |starts |started |just )*(?:hissing|hisses|shaking|bulging|swelling|lifting|rattling|glowing|buckling|jumping|rocking)`,
  'hissing (?:from|at|out of|loud\\w*|hard|bad\\w*|a lot|like mad)|loud hiss\\w*|^hissing$',
  '(?:boil|foam|froth|climb|com|run|spill|flow|bubbl)(?:s|ed|ing|e)? ?over|overflow\\w*|run ?away|(?:rising|climbing|coming up|going up) (?:\\w+ )?fast',
  '(?:climbing|coming|pouring|foaming|pushing|blowing) (?:out|up) (?:of|over|through|at) (?:the )?(?:top|rim|lid|tank|vent|drum)',
  'thump(?:s|ing)|banging(?! head)|rumbling|popping (?:again|hard|loud\\w*|like)|knocking (?:hard|loud\\w*)|(?:wont|cant|cannot|will not|can not) (?:\\w+ )?(?:turn|switch|shut|go) (?:it |the heater |the power )?off',
  'help me|help us|somebody help|send help|call (?:an )?ambulance|ambulance|mayday',
];

const urgentWords = new RegExp(`\\b(?:${[...person, ...fire, ...plant].join('|')})\\b`, 'g');
const fireWords = new RegExp(`\\b(?:${fire.join('|')})\\b`, 'g');
const personWords = new RegExp(`\\b(?:${person.join('|')})\\b`, 'g');

/** What takes the urgency out of the word behind it: "no smoke", "nobody was hurt". */
const denies =
  /\b(?:no|not(?! sure| certain)|never|nothing|none|nobody|no one|without|isnt|arent|wasnt|werent|doesnt|didnt|dont|stopped|any)(?: (?!but|put|stop)\w+){0,3} ?$/;

/** What makes a mention of danger calm: it is asked about, or drunk at table. */
const harmless =
  /\b(?:drank|drunk|had|drinking) (?:\w+ ){0,2}(?:beers?|wine|pints?|coffee|tea|water|juice|cola|milk|whisky)\b|\b(?:smoke|gas|heat) (?:detector|alarm)s? (?:is |are )?(?:fitted|there|tested|ok|fine|on)\b/g;

function clausesOf(text: string): string[] {
  return text
    .slice(0, longestLine)
    .toLowerCase()
    .replace(/['’]/g, '')
    .split(/[.,;:!?()]+|\s[-–—]\s|\bbut\b|\bthen\b|\band\b/)
    .map((clause) => clause.replace(harmless, ' ').replace(/\s+/g, ' ').trim());
}

function saidOf(text: string, words: RegExp): string[] {
  return clausesOf(text).flatMap((clause) =>
    [...clause.matchAll(words)]
      .filter((found) => !denies.test(clause.slice(0, found.index)))
      .map(([phrase]) => phrase),
  );
}

/** Fire, or somebody hurt, as the alarm calls them; of both, the fire. Nothing where the line says neither. */
export function dangerToPeople(text: string): 'fire' | 'person-hurt' | undefined {
  // Eyes that burn are no fire.
  const besides = clausesOf(text)
    .map((clause) => clause.replace(personWords, ' '))
    .join('. ');
  if (saidOf(besides, fireWords).length > 0) return 'fire';
  return saidOf(text, personWords).length > 0 ? 'person-hurt' : undefined;
}

/** Whether a line says what nobody types calmly: it opens the alarm unless it is a plain answer to what is asked. */
export function isUrgent(text: string): boolean {
  return saidOf(text, urgentWords).length > 0;
}

const stem = (word: string): string => word.slice(0, 4);

/** Whether the urgent words of a line are only those of a choice that is offered. */
export function isWordedLike(text: string, offered: readonly string[]): boolean {
  const plain = (words: string) => words.toLowerCase().replace(/['’]/g, '');
  const known = new Set(offered.flatMap((words) => plain(words).split(/[^a-z]+/)).map(stem));
  const said = saidOf(text, urgentWords).flatMap((phrase) => phrase.split(' '));
  return said
    .filter((word) => !/^(?:is|are|was|its?|the|an?|just)$/.test(word))
    .every((word) => known.has(stem(word)));
}

/** Where any words are an answer, only the bare cry, or harm to a person told as it happens, opens the alarm. */
const cry =
  /^(?:fire|there(?: i|')?s (?:a )?(?:fire|smoke)|help|help me|(?:(?:he|she|somebody|someone) (?:is|got)|i am|i'm|im) hurt|hurt|explosion|(?:it|its|it's|it is|tank|the tank|the tank is) (?:is )?(?:on fire|burning|boiling over|foaming over|smoking))[.! ]*$/i;
const now =
  /^(?:i|im|i'm|my|he|hes|he's|she|shes|somebody|someone|got|ive|i've|lye|caustic|methanol|methoxide|acid|help)\b/i;
const mostWords = 9;

export function isCryInWords(text: string): boolean {
  if (cry.test(text.trim())) return true;
  const short = text.trim().split(/\s+/).length <= mostWords;
  return short && now.test(text.trim()) && saidOf(text, personWords).length > 0;
}
