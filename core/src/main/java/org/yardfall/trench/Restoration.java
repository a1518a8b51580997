package org.yardfall.trench;

import org.yardfall.site.Surface;

/** What is put back on top of a finished trench. */
public enum Restoration {
  /**
   * Turf, cut before the dig and laid again; with its roots {@value #SOD_M} m thick ({@code common
   * practice, no source}: sod is cut with 2.5 in of root).
   */
  SOD(Restoration.SOD_M),
  /** Pavement, sawn out and made good; {@value #PAVEMENT_M} m thick, a 4 in slab. */
  PAVEMENT(Restoration.PAVEMENT_M),
  /** Nothing: the stone reaches the ground, as in beds, woods and gravel. */
  NONE(0);

  private static final double SOD_M = 0.0635;
  private static final double PAVEMENT_M = 0.1016;

  private final double thicknessM;

  Restoration(double thicknessM) {
    this.thicknessM = thicknessM;
  }

  /** Thickness in metres that it takes of the trench's depth. */
  public double thicknessM() {
    return thicknessM;
  }

  /** What is put back where the ground bears the given cover. */
  public static Restoration of(Surface.Kind surface) {
    return switch (surface) {
      case LAWN -> SOD;
      case PAVEMENT, ROOF -> PAVEMENT;
      case GRAVEL, WOODS, BARE -> NONE;
    };
  }
}
