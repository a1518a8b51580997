package org.yardfall.pipe;

import org.yardfall.site.BadInputException;

/**
 * A generic pipe.
 *
 * @param material what it is made of and how its wall is formed
 * @param perforated whether it lets water in along its length
 * @param nominalIn nominal size in inches, as it is sold
 * @param insideM inside diameter in metres
 * @param outsideM outside diameter in metres
 * @param n Manning's roughness
 * @param nSource where the roughness comes from
 * @param perforationM2PerM area of its openings in m² per metre; 0 where solid
 * @param opening the form of its openings
 * @param openingM diameter of a hole or width of a slot in metres; 0 where solid
 */
public record Pipe(
    Material material,
    boolean perforated,
    double nominalIn,
    double insideM,
    double outsideM,
    double n,
    String nSource,
    double perforationM2PerM,
    Opening opening,
    double openingM) {

  /** What a pipe is made of and how its wall is formed. */
  public enum Material {
    /** Polyethylene, corrugated inside and out. */
    CORRUGATED("corrugated polyethylene"),
    /** Polyethylene, corrugated outside, smooth inside. */
    SMOOTH_LINED("smooth-lined corrugated polyethylene"),
    /** PVC, thin wall, the drain grade. */
    PVC("PVC drain pipe"),
    /** PVC, the sewer grade with a wall of 1/35 of the diameter. */
    PVC_SEWER("PVC sewer pipe"),
    /** PVC, the thick-walled grade that is bored or driven under slabs. */
    SCHEDULE_40("Schedule 40 PVC");

    private final String words;

    Material(String words) {
      this.words = words;
    }

    /** What a person calls it. */
    public String words() {
      return words;
    }
  }

  /** The form of a pipe's openings. */
  public enum Opening {
    NONE,
    HOLE,
    SLOT
  }

  /** Refuses a pipe that cannot be. */
  public Pipe {
    if (!(insideM > 0) || !(outsideM >= insideM)) {
      throw new BadInputException(
          "drain.pipe",
          "the pipe's outside diameter must be no less than its inside diameter, both above 0",
          "correct the diameters");
    }
    if (!(n > 0)) {
      throw new BadInputException(
          "drain.pipe", "Manning's n must be above 0", "give 0.009 to 0.03");
    }
    if (!(perforationM2PerM >= 0) || perforated != perforationM2PerM > 0) {
      throw new BadInputException(
          "drain.pipe",
          "a perforated pipe has an opening area above 0, a solid pipe none",
          "correct the opening area");
    }
  }

  /** What it is, in words: {@code 4 in perforated corrugated polyethylene}. */
  public String words() {
    return sizeWords() + " " + (perforated ? "perforated " : "solid ") + material.words();
  }

  /** Its nominal size: {@code 4 in}. */
  public String sizeWords() {
    String size =
        nominalIn == Math.rint(nominalIn)
            ? String.valueOf((long) nominalIn)
            : String.valueOf(nominalIn);
    return size + " in";
  }
}
