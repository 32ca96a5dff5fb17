/**
 * Statements that put a new table behind the door: its rows are the owner's and the program's, whatever a query forgets. Every table needs
 * them, and a test finds one without. Frozen like the changes that use it. What else an account may see of it is a policy beside this one.
 */
export const guarded = (table: string): string[] => [
  `ALTER TABLE "${table}" ENABLE ROW LEVEL SECURITY`,
  // In brackets with SELECT it is asked once a statement, not once a row.
  `CREATE POLICY "door_whole" ON "${table}" USING ((SELECT door_open())) WITH CHECK ((SELECT door_open()))`,
];
