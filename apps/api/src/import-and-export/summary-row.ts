import { looseSpelling } from '@linewright/pedigree';

/** What spreadsheets have before a sum, a mean or a count, in some languages; compared without capitals, blanks and colons. */
const words = new Set(
  [
    'total, totals, grand total, subtotal, sub-total, sum, sums, count, counts, average, mean, median, minimum, maximum',
    'number of fish, all fish, number of rows, total fish, fish in total, Σ, ∑',
    'Summe, Gesamt, Gesamtsumme, Insgesamt, Zwischensumme, Anzahl, Mittelwert, Durchschnitt',
    'total général, sous-total, somme, moyenne, nombre, totale, subtotale, somma, media, suma, promedio, soma, média',
    'totaal, subtotaal, som, gemiddelde, aantal, summa, totalt, razem, średnia, celkem, součet',
    'jumlah, rata-rata, tổng, tổng cộng, toplam, итого, всего, сумма, среднее, รวม, ยอดรวม, 合计, 合計, 总计, 總計, 小計, 平均',
  ]
    .join(',')
    .split(',')
    .map(looseSpelling),
);

/** "Total", "TOTAL:", "Sum (24)", "Total 24 fish": a word for a sum, perhaps with a number set apart from it. */
export const namesSummary = (tag: string): boolean => {
  const withoutNumbers = tag.replace(/(^|[\s:=(])[+-]?\d+(?:[.,]\d+)*\)?(?=$|\s)/g, '$1 ');
  return words.has(looseSpelling(withoutNumbers).replace(/[:.=(]+$/, ''));
};
