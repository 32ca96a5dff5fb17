const BROWSERS: readonly (readonly [RegExp, string])[] = [
  // Those that call themselves by another's name as well come first.
  [/\bEdg(e|A|iOS)?\//, 'Edge'],
  [/\bOPR\//, 'Opera'],
  [/\b(Firefox|FxiOS)\//, 'Firefox'],
  [/\b(Chrome|CriOS|Chromium|HeadlessChrome)\//, 'Chrome'],
  [/\bSafari\//, 'Safari'],
];
const SYSTEMS: readonly (readonly [RegExp, string])[] = [
  [/\bAndroid\b/, 'Android'],
  [/\b(iPhone|iPod)\b/, 'iPhone'],
  [/\biPad\b/, 'iPad'],
  [/\bWindows\b/, 'Windows'],
  [/\bMac OS X\b/, 'Mac'],
  [/\b(CrOS|Linux|X11)\b/, 'Linux'],
];

const named = (names: readonly (readonly [RegExp, string])[], text: string): string | undefined =>
  names.find(([pattern]) => pattern.test(text))?.[1];

/** Browser and system of a `User-Agent` header in words, such as "Firefox on Android"; empty where it says neither. */
export const deviceName = (userAgent: string | undefined): string => {
  const text = (userAgent ?? '').slice(0, 500);
  return [named(BROWSERS, text), named(SYSTEMS, text)].filter(Boolean).join(' on ');
};
