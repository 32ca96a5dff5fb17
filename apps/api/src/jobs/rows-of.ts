/** The rows of an answer, whatever the statement: the driver answers an UPDATE with [rows, count]. */
export const rowsOf = <Row>(answer: unknown): Row[] => {
  const [rows] = answer as [Row[], number];
  return Array.isArray(rows) ? rows : (answer as Row[]);
};
