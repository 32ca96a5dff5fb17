/** This moment. The one place where the viewer reads the clock of the device; days are those of the device's time zone. */
export const now = (): Date => new Date();

/** The time zone of this device, an IANA name, as the API takes it. */
export const zoneHere = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone;

/** Tells the API in which zone "today" is asked for: its days are those of this device. */
export const zoneHeader = (zone = zoneHere()): Record<string, string> => ({
  'linewright-zone': zone,
});
