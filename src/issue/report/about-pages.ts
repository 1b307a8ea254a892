/** What a file of pages says of itself. */
export interface AboutPages {
  readonly title: string;
  readonly author: string;
  readonly now: Date;
  /** The language of its words, by its tag (BCP 47); absent: English. */
  readonly language?: string;
  /**
   * The pages are to go behind a drawing's own, where they lead to marks on its sheets too. They are not tagged then: the tags of a document
   * are for all of its pages, and nothing is known of what the drawing's say.
   */
  readonly behind?: boolean;
}
