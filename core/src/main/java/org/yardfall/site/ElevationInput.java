package org.yardfall.site;

import java.nio.file.Path;
import java.util.List;
import java.util.OptionalDouble;

/**
 * Where the ground's elevations come from, as the user gave it.
 *
 * @param rasters elevation rasters of the same CRS, in order of preference; may be empty
 * @param shots a file of survey shots, or null
 * @param shotColumns the columns' order in that file ({@code PNEZD}, …), or null to recognise it
 * @param verticalUnitM metres per unit of elevation, where stated by the user
 * @param verticalDatum the vertical datum's name as stated, or empty
 * @param accuracyM vertical accuracy of the ground as RMSE in metres, where stated
 * @param crsOverride a CRS for rasters that carry none, or null
 * @param shotInput how the shots are to be read and used
 * @param date when the ground was surveyed or flown over, in the user's words, or empty
 */
public record ElevationInput(
    List<Path> rasters,
    Path shots,
    String shotColumns,
    OptionalDouble verticalUnitM,
    String verticalDatum,
    OptionalDouble accuracyM,
    String crsOverride,
    ShotInput shotInput,
    String date) {

  /** Keeps the list to itself. */
  public ElevationInput {
    rasters = List.copyOf(rasters);
  }

  /**
   * The same ground as shots of the given file show it: a raster moved and bent to them, or they
   * alone where there is none.
   */
  public ElevationInput corrected(Path by) {
    return new ElevationInput(
        rasters,
        by,
        shotColumns,
        verticalUnitM,
        verticalDatum,
        accuracyM,
        crsOverride,
        shotInput.correcting(!rasters.isEmpty()),
        date);
  }

  /** Whether any source of elevations is named. */
  public boolean given() {
    return !rasters.isEmpty() || shots != null;
  }
}
