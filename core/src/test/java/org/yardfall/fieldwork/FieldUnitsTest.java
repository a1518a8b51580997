package org.yardfall.fieldwork;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.yardfall.site.BadInputException;
import org.yardfall.site.WorkingCrs;

/** Lengths as a crew writes them; and the laser's arithmetic. */
class FieldUnitsTest {

  @Test
  void eighthsOfAnInchAreWrittenAsOnARod() {
    checkFeetInches(0, "0' 0\"");
    checkFeetInches(5.25, "5' 3\"");
    checkFeetInches(5 + 3.125 / 12, "5' 3 1/8\"");
    checkFeetInches(5 + 3.5 / 12, "5' 3 1/2\"");
    checkFeetInches(2 + 11.97 / 12, "3' 0\"");
    checkFeetInches(-(1 + 0.75 / 12), "-1' 0 3/4\"");
    checkFeetInches(-0.0001, "0' 0\"");
  }

  @Test
  void aFootIsExactlyDefined() {
    assertEquals("1.00", FieldUnits.FEET.length(0.3048));
    // US survey foot, 1200/3937 m (NIST Special Publication 811): two millionths longer.
    FieldUnits survey = FieldUnits.named("ftUS");
    assertEquals(1200.0 / 3937, survey.unitM());
    assertEquals("2000000.00", survey.length(2_000_000 * WorkingCrs.US_SURVEY_FOOT_M));
    assertEquals("2000004.00", FieldUnits.FEET.length(2_000_000 * WorkingCrs.US_SURVEY_FOOT_M));
  }

  @Test
  void aReadingIsUnderstoodInItsUnit() {
    assertEquals(1.5, FieldUnits.METRES.metres("rod", "1.5"), 1e-12);
    assertEquals(5.25 * 0.3048, FieldUnits.FEET.metres("rod", "5.25"), 1e-12);
    assertEquals(5.25 * 0.3048, FieldUnits.FEET_INCHES.metres("rod", "5 ft 3 in"), 1e-12);
    assertThrows(BadInputException.class, () -> FieldUnits.FEET.metres("rod", "five"));
    assertThrows(BadInputException.class, () -> FieldUnits.named("cubits"));
  }

  /** Written in eighths and read back, a length is off by a sixteenth of an inch at most. */
  @Property(tries = 300, seed = "20261125")
  void eighthsReadBackWithinASixteenth(@ForAll @DoubleRange(min = 0, max = 100) double metres) {
    String text = FieldUnits.FEET_INCHES.length(metres);
    assertEquals(metres, FieldUnits.FEET_INCHES.metres("x", text), 0.0254 / 16 + 1e-9);
  }

  /** BM 100.00, backsight 4.20: HI 104.20; 6.50 on the point: 97.70 (a published FE exercise). */
  @Test
  void aLaserReadsElevationsFromItsHeight() {
    LaserSetup setup = new LaserSetup(100.00, 4.20);
    assertEquals(104.20, setup.hiM(), 1e-9);
    assertEquals(97.70, setup.elevationM(6.50), 1e-9);
    // Grade rod = HI − grade; cut = grade rod − ground rod (common practice, no source).
    assertEquals(9.20, setup.rodM(95.00), 1e-9);
    assertEquals(2.70, setup.cutM(6.50, 95.00), 1e-9);
    assertEquals(setup.rodM(95.00) - 6.50, setup.cutM(6.50, 95.00), 1e-9);
    assertEquals(-1.20, setup.cutM(10.40, 95.00), 1e-9);
  }

  private static void checkFeetInches(double feet, String expected) {
    assertEquals(expected, FieldUnits.FEET_INCHES.length(feet * 0.3048));
  }
}
