package org.yardfall.fieldwork;

import java.util.Optional;
import org.yardfall.site.BadInputException;
import org.yardfall.trench.TrenchSection;

/**
 * How a route is staked.
 *
 * @param intervalM greatest distance between stakes in metres, above 0
 * @param offsetM distance of the offset stakes from the centre line in metres; 0: none
 * @param side where the offset stakes stand, looking downstream
 * @param section the trench, for its bottom
 * @param setup the instrument's set-up; empty: no rod readings on the sheet
 * @param metresPerUnit metres per unit of the working CRS, for the coordinates written
 */
public record StakeSettings(
    double intervalM,
    double offsetM,
    Side side,
    TrenchSection section,
    Optional<LaserSetup> setup,
    double metresPerUnit) {

  /** Where offset stakes stand, looking downstream. */
  public enum Side {
    LEFT,
    RIGHT,
    BOTH
  }

  /** Refuses an interval or an offset that cannot be staked. */
  public StakeSettings {
    if (!(intervalM >= 0.1) || !Double.isFinite(intervalM)) {
      throw new BadInputException(
          "interval", "must be a length of 0.1 m or more", "stakes usually stand 3 m apart");
    }
    if (!(offsetM >= 0) || !Double.isFinite(offsetM)) {
      throw new BadInputException("offset", "must not be negative", "choose the side instead");
    }
    if (offsetM > 0 && offsetM <= section.widthM() / 2) {
      throw new BadInputException(
          "offset",
          "puts the stakes into the trench, which is %.2f m wide".formatted(section.widthM()),
          "set them back by more than half its width");
    }
  }

  /** Stakes on the centre line only, at most 3 m apart, no instrument; CRS in metres. */
  public static StakeSettings of(TrenchSection section) {
    return new StakeSettings(3.0, 0, Side.BOTH, section, Optional.empty(), 1);
  }

  /** The same at another interval. */
  public StakeSettings every(double metres) {
    return new StakeSettings(metres, offsetM, side, section, setup, metresPerUnit);
  }

  /** The same with offset stakes. */
  public StakeSettings offset(double metres, Side where) {
    return new StakeSettings(intervalM, metres, where, section, setup, metresPerUnit);
  }

  /** The same with an instrument set up. */
  public StakeSettings with(LaserSetup instrument) {
    return new StakeSettings(
        intervalM, offsetM, side, section, Optional.of(instrument), metresPerUnit);
  }

  /** The same with coordinates written in a CRS of the given unit. */
  public StakeSettings inUnitsOf(double metres) {
    return new StakeSettings(intervalM, offsetM, side, section, setup, metres);
  }
}
