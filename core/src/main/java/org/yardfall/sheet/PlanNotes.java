package org.yardfall.sheet;

/** Words that stand on every drawing. */
final class PlanNotes {

  static final String DRAFT = "draft for review, not for construction";

  static final String SAFETY =
      "Have buried utilities located before any digging. A trench can bury a person: protect it by"
          + " the rules for trenches. Local code, permits and licensed practice come before this"
          + " drawing.";

  private PlanNotes() {}
}
