/** Works that only the checks cite; all others stand in rules/sources.yaml. */
export interface CheckSource {
  id: string;
  cite: string;
  seen: 'looked-up' | 'from-memory';
  note?: string;
}

export const furtherSources: readonly CheckSource[] = [
  {
    id: 'codex-210',
    cite: 'Codex Alimentarius. Standard for named vegetable oils, CXS 210-1999, table of chemical and physical characteristics. FAO and WHO.',
    seen: 'from-memory',
    note: 'A public copy was found, but only its first pages could be read, not this table.',
  },
  {
    id: 'codex-33',
    cite: 'Codex Alimentarius. Standard for olive oils and olive pomace oils, CXS 33-1981. FAO and WHO.',
    seen: 'from-memory',
  },
  {
    id: 'hoekman-2012',
    cite: 'Hoekman SK, Broch A, Robbins C, Ceniceros E, Natarajan M. Review of biodiesel composition, properties, and specifications. Renew. Sustain. Energy Rev. 16:143-169, 2012.',
    seen: 'from-memory',
    note: 'The abstract was read; the spans of measured values are from memory.',
  },
  {
    id: 'knothe-2003',
    cite: 'Knothe G, Matheaus AC, Ryan TW. Cetane numbers of branched and straight-chain fatty esters determined in an ignition quality tester. Fuel 82:971-975, 2003.',
    seen: 'from-memory',
  },
  {
    id: 'parker-1965',
    cite: 'Parker VB. Thermal properties of aqueous uni-univalent electrolytes. NSRDS-NBS 2. National Bureau of Standards, 1965.',
    seen: 'looked-up',
    note: 'Read as reprinted in a handbook table.',
  },
  {
    id: 'steam-tables',
    cite: 'Saturated water and steam: IAPWS-95, and handbook tables made from it.',
    seen: 'looked-up',
  },
  {
    id: 'lund-1922',
    cite: 'Lund 1922, as quoted by Pryde EH. Physical properties of soybean oil, chapter 3. US Department of Agriculture.',
    seen: 'looked-up',
  },
  {
    id: 'noureddini-1992',
    cite: 'Noureddini H, Teoh BC, Clements LD. Densities of vegetable oils and fatty acids. J. Am. Oil Chem. Soc. 69:1184-1188, 1992.',
    seen: 'looked-up',
    note: 'Abstract read; coefficients for coconut oil read at second hand, in a public data file that names the paper.',
  },
  {
    id: 'parsons-1937',
    cite: 'Parsons LB, Holmberg CO. Solubility of water in cottonseed oil. Oil and Soap 14, 1937.',
    seen: 'from-memory',
    note: 'As quoted in handbooks.',
  },
  {
    id: 'doe-biodiesel',
    cite: 'Biodiesel production, rounded mass balance. Alternative Fuels Data Center, US Department of Energy.',
    seen: 'looked-up',
  },
  {
    id: 'standardisation-exercises',
    cite: 'Public chemistry exercises and laboratory procedures with worked answers: alkali standardised against potassium hydrogen phthalate.',
    seen: 'looked-up',
  },
  {
    id: 'cooling-exercises',
    cite: "Public mathematics exercises with worked answers: Newton's law of cooling.",
    seen: 'looked-up',
  },
];
