/**
 * Measured from the shipped typeface by tests/harness/make-advances.mjs; a test compares it with the font files.
 * Lengths in units of the font, UNITS_PER_EM to the font size. Regular and bold have the same advances.
 */
export const UNITS_PER_EM = 1000;
export const CAPITAL_HEIGHT = 735;
export const ASCENT = 965;
export const DESCENT = 215;

/** Advance width and the characters that have it. */
export const ADVANCES: readonly { readonly advance: number; readonly characters: readonly string[] }[] = [
  {
    advance: 300,
    characters: ["IijlÌÍÎÏìíîïĨĩĪīĬĭĮįİıĵĺļľŀłΊΐΙΪίιϊІЇіїј"],
  },
  {
    advance: 450,
    characters: [" !',-.:;`frt ¡¨­¯°´·¸ŕŗřţťŧț΄΅·‐‑‘’‚‛′"],
  },
  {
    advance: 600,
    characters: [
      '"#$%&()*+/0123456789<=>?ABCDEFGHJKLNOPQRSTUVXYZ[\\]^_abcdeghknopq',
      "suvxyz{|}~¢£¤¥¦§ª«¬®±²³µ¶¹º»¼½¾¿ÀÁÂÃÄÅÇÈÉÊËÐÑÒÓÔÕÖ×ØÙÚÛÜÝÞßàáâãä",
      "åçèéêëðñòóôõö÷øùúûüýþÿĀāĂăĄąĆćĈĉĊċČčĎďĐđĒēĔĕĖėĘęĚěĜĝĞğĠġĢģĤĥĦħĳĴ",
      "ĶķĸĹĻĽĿŁŃńŅņŇňŉŊŋŌōŎŏŐőŔŖŘŚśŜŝŞşŠšŢŤŦŨũŪūŬŭŮůŰűŲųŶŷŸŹźŻżŽžſȘșȚΆΈ",
      "ΉΌΎΏΑΒΓΔΕΖΗΘΚΛΝΞΟΠΡΣΤΥΧΩΫάέήΰαβγδεζηθκλμνξοπρςστυχϋόύЀЁЂЃЄЅЈЋЌЍЎ",
      "ЏАБВГДЕЗИЙКЛНОПРСТУХЦЧЬЭЯабвгдезийклнопрстухцчьэяѐёђѓєѕћќѝўџҐґ‒–",
      "“”„†‡•″‹›⁄€™Ω⅛⅜⅝⅞∆−√≈≠≤≥",
    ],
  },
  {
    advance: 675,
    characters: ["Ъъ"],
  },
  {
    advance: 750,
    characters: ["@MWmwÆæŒœŴŵΜΦΨφψωώЉЊЖМФШЩЮжмфшщюљњ"],
  },
  {
    advance: 825,
    characters: ["Ыы"],
  },
  {
    advance: 900,
    characters: ["Ĳ"],
  },
  {
    advance: 1000,
    characters: ["©—―…‰←↑→↓↔↕∞■□▲●"],
  },
  {
    advance: 1200,
    characters: ["№"],
  },
];
