/** The version in package.json; the build and the test configuration put the text in its place. */
declare const __VERSION__: string;
