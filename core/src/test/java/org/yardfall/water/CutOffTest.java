package org.yardfall.water;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;

class CutOffTest {

  private static final Geometry LOT = Grids.box(100, 100, 120, 140);

  @Test
  void aWholeCatchmentNeedsNoWord() {
    assertEquals(Optional.empty(), warning(""));
  }

  /** The ground reaches 62 m beyond the lot in the north: as far again is 70 m in tens. */
  @Test
  void oneSideNamesTheSideAndHowMuchMore() {
    assertEquals(
        "catchment cut off: the known ground ends in the north before what drains to the lot does,"
            + " so that areas, volumes and peaks are at least what is given, and the pipe may be"
            + " too small; give the elevations about 70 m farther in the north",
        warning("north").orElseThrow());
  }

  @Test
  void severalSidesAndAHoleStandInOneSentence() {
    assertEquals(
        "catchment cut off: the known ground ends in the north, in the west and at unknown ground"
            + " within it before what drains to the lot does, so that areas, volumes and peaks are"
            + " at least what is given, and the pipe may be too small; give the elevations about 70"
            + " m farther in the north, 30 m in the west and where they are missing within",
        warning("north, west, unknown ground within").orElseThrow());
  }

  private static Optional<String> warning(String cutOff) {
    Catchment catchment = new Catchment("C1", "lot", LOT, 1000, cutOff);
    return CutOff.warning(catchment, LOT, new Envelope(95, 300, 20, 202));
  }
}
