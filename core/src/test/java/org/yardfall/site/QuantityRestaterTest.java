package org.yardfall.site;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Factors of NIST Special Publication 811 (2008), appendix B, from memory: 1 ft = 0.3048 m, 1 in =
 * 25.4 mm, 1 lb = 0.45359237 kg, 1 ft³ = 28.316847 l; the expected figures are worked out by hand.
 */
class QuantityRestaterTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "at most 0.77 m deep, 0.08 m deeper than R2 | at most 2.5 ft deep, 3 in deeper than R2",
        "the runoff of 2820 m² reaches 2 of 4 sides | the runoff of 30350 ft² reaches 2 of 4 sides",
        "less than 0.15 m in 3.05 m (Code R401.3) | less than 6 in in 10.0 ft (Code R401.3)",
        "station 52.4 to 53.8 m: slab | station 172 to 177 ft: slab",
        "dig by hand within 24 in (0.6 m) of it | dig by hand within 24 in of it",
        "lengths of 3.048 m (10 ft) | lengths of 10 ft",
        "3 rolls of 3.81 × 30.5 m (12.5 × 100 ft), laps | 3 rolls of 12.5 × 100 ft, laps",
        "18.42 m³ at 1.397 t/m³ (87.2 lb/ft³) | 650 ft³ at 87.2 lb/ft³",
        "bulk density 1.40 t/m³, voids 40 % | bulk density 87 lb/ft³, voids 40 %",
        "7.69 l/s per m arrives | 0.083 ft³/s per ft arrives",
        "for 5060 (1.8 per m²) | for 5060 (0.17 per ft²)",
        "51 mm of stone under the pipe | 2.0 in of stone under the pipe",
        "fabric opening 0.22 mm | fabric opening 0.22 mm",
        "1.0e-07 m/s for water | 0.014 in/h for water",
        "0.06604 m, the storm's depth | 2.60 in, the storm's depth",
        "dry gaps up to 5 m are bridged | dry gaps up to 16.4 ft are bridged",
        "the outlet 0.139 m lower | the outlet 5.5 in lower",
        "0.00 m against 0.61 m | 0 in against 2.0 ft",
        "EPSG:26915 lot 3 mm-wave, R2 main | EPSG:26915 lot 3 mm-wave, R2 main",
      })
  void saysThemAsAReaderInTheUnitedStatesDoes(String metric, String us) {
    assertEquals(us, UnitSystem.US.restate(metric));
    assertEquals(metric, UnitSystem.METRIC.restate(metric));
  }

  @Test
  void setsSquaresForReadersOfMetres() {
    assertEquals("lawn 459 m², CB 2 m2a", UnitSystem.METRIC.restate("lawn 459 m2, CB 2 m2a"));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "21.01 m³ as it lies, grown by 40 % | 27.48 yd³ as it lies, grown by 40 %",
        "whole loads of 7.65 m³ (10 yd³) | whole loads of 10 yd³",
      })
  void earthIsMeasuredByTheYard(String metric, String us) {
    assertEquals(us, UnitSystem.US.restateEarth(metric));
  }
}
