package org.yardfall.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.yardfall.site.UnitSystem;

/** Stations in hundreds of feet, depths in feet and inches: common practice, no source. */
class StationingTest {

  @Test
  void stationsAreWrittenAsCrewsWriteThem() {
    checkStation("0+00.0", 0, UnitSystem.US);
    checkStation("1+25.3", 125.3 * 0.3048, UnitSystem.US);
    checkStation("2+00.0", 199.96 * 0.3048, UnitSystem.US);
    checkStation("0+038.1", 38.1, UnitSystem.METRIC);
    checkStation("1+002.0", 1002, UnitSystem.METRIC);
  }

  @Test
  void depthsAreWrittenInFeetAndInches() {
    checkDepth("1'-7 5/8\"", 19.625 * 0.0254);
    checkDepth("2'-0\"", 23.96 * 0.0254);
    checkDepth("0'-6 1/2\"", 6.5 * 0.0254);
    checkDepth("0'-9 3/4\"", 9.75 * 0.0254);
    checkDepth("-1'-0\"", -12 * 0.0254);
  }

  private static void checkStation(String expected, double metres, UnitSystem units) {
    assertEquals(expected, Stationing.station(metres, units));
  }

  private static void checkDepth(String expected, double metres) {
    assertEquals(expected, Stationing.depth(metres, UnitSystem.US));
  }
}
