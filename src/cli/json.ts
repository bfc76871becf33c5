/** JSON as the command prints it. */

/**
 * One value as JSON on one line. Characters that steer a terminal or turn its direction are written as escapes, which
 * changes no value.
 */
export const jsonText = (value: unknown): string =>
  JSON.stringify(value).replace(/[\u007f-\u009f\p{Cf}\p{Zl}\p{Zp}]/gu, (character) =>
    [...Array(character.length).keys()]
      .map((i) => `\\u${character.charCodeAt(i).toString(16).padStart(4, "0")}`)
      .join(""),
  );
