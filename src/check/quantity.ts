/**
 * What a number in a reason is to the step it stands under:
 * - `axis` = `start` + the tag's length (`given`, negative where the tag counts downwards) + `half-height`;
 * - `lowest` = `given` + `start` - every `less`; on a slope, at the point the elevation is given for, and `fall` is its drop per unit of run;
 * - `lowest-there` = the sum of every `spot` times its `share` + `start` - every `less`; the shares add up to 1 and are those of the place
 *   between the spots of its face. `fall` is the slope of that face;
 * - `least` = the distance between the spots on element and deck, from `element-there`, `deck-there` and `plan-apart`, less `stands-out`; where
 *   the element reaches above the deck, `vertical` over the secant of the slope instead;
 * - `interval` = `least` less and plus its share of `slack-vertical` and `slack-plan`, each as the spots lie to each other, and less
 *   `stands-out-beyond`: half of `coupling` less half of `diameter`;
 * - `slack-vertical` = the `tolerance` of tag and deck together; of the tag alone where it is counted from that deck, and of both decks where from another.
 * `required`, `diameter`, `height`, `plan-apart` and whatever has no step below it is read or measured.
 */
export type QuantityKind =
  | "required"
  | "least"
  | "element-there"
  | "deck-there"
  | "plan-apart"
  | "stands-out"
  | "vertical"
  | "interval"
  | "slack-vertical"
  | "slack-plan"
  | "diameter"
  | "height"
  | "coupling"
  | "bend"
  | "stands-out-beyond"
  | "axis"
  | "start"
  | "half-height"
  | "tolerance"
  | "lowest"
  | "lowest-there"
  | "spot"
  | "given"
  | "less"
  | "fall";

/** The number of a reason for a program to read: what `value` says in words. Inches, but for `fall`. */
export interface Quantity {
  readonly is: QuantityKind;
  readonly in: number;
  /** The upper end, where `in` is the lower end of an interval. */
  readonly to?: number;
  /** For a `spot`: how much of it counts at the place. Negative or more than 1 where the place lies beside the triangle of its spots. */
  readonly share?: number;
  /** A number read in the words of the step itself, which it starts from. */
  readonly given?: number;
}
