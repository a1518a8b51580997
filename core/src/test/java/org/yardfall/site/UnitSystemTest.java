package org.yardfall.site;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Locale;
import org.junit.jupiter.api.Test;

/** Exact conversions: foot 0.3048 m, inch 25.4 mm, US ton 907.18474 kg (NIST SP 811, app. B). */
class UnitSystemTest {

  @Test
  void lengthsAreShownInTheSystemsUnit() {
    assertEquals("30.48 m", UnitSystem.METRIC.length(30.48));
    assertEquals("100.0 ft", UnitSystem.US.length(30.48));
    assertEquals("18.0 in", UnitSystem.US.small(0.4572));
    assertEquals("457 mm", UnitSystem.METRIC.small(0.4572));
    assertEquals("61.5 mm", UnitSystem.METRIC.rain(0.0615));
    assertEquals("100 mm", UnitSystem.METRIC.rain(0.1));
    assertEquals("2.65 in", UnitSystem.US.rain(2.65 * 0.0254));
    assertEquals("2.6 in", UnitSystem.US.rain(2.6 * 0.0254));
  }

  @Test
  void areasVolumesFlowsAndMassesConvertExactly() {
    assertEquals("43560 ft²", UnitSystem.US.area(4046.8564224));
    assertEquals("27.0 yd³", UnitSystem.US.volume(27 * 0.764554857984));
    assertEquals("1.000 ft³/s", UnitSystem.US.flow(0.028316846592));
    assertEquals("2.0 ton", UnitSystem.US.mass(1.81436948));
  }

  @Test
  void aRoundedNothingHasNoSignAndTheLocaleDoesNotMatter() {
    Locale before = Locale.getDefault();
    try {
      Locale.setDefault(Locale.GERMANY);
      assertEquals("0.00 m", UnitSystem.METRIC.elevation(-0.001));
      assertEquals("1.25 %", UnitSystem.grade(0.0125));
    } finally {
      Locale.setDefault(before);
    }
  }

  @Test
  void anUnknownSystemIsRefused() {
    assertThrows(BadInputException.class, () -> UnitSystem.named("imperial"));
  }
}
