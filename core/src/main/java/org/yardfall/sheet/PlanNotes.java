package org.yardfall.sheet;

/** Words that stand on every drawing. */
final class PlanNotes {

  static final String DRAFT = "draft for review, not for construction";

  static final String SAFETY =
      "A trench can bury a person: protect it by the rules for trenches. In all of this local code"
          + " and licensed practice decide.";

  /** Where no drain is proposed, whose own cautions say it at length. */
  static final String LOCATE = "Have buried utilities located before any digging.";

  private PlanNotes() {}
}
