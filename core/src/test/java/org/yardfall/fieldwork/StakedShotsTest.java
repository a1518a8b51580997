package org.yardfall.fieldwork;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.yardfall.elevation.Shot;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.site.BadInputException;

/** A pipe proved by level and rod at its stakes, without coordinates; the yard is invented. */
class StakedShotsTest {

  @TempDir private Path folder;

  private LevelNotes notes(String header, List<String> lines) throws IOException {
    Path file = folder.resolve("notes.csv");
    Files.writeString(file, header + "\n" + String.join("\n", lines) + "\n");
    return LevelNotes.read(file, Double.NaN, LevelTolerance.THIRD_ORDER);
  }

  @Test
  void aReadingAtAStakeIsAShotAtItsPlace() throws IOException {
    Route route = FieldFixtures.bentRoute();
    LevelNotes notes =
        notes(
            "point,BS (m),IS,FS,known",
            List.of("BM,1.200,,,101.000", "0,,1.300,,", "0+12.5,,1.400,,", "BM,,,1.200,"));
    StakedShots staked = StakedShots.of(notes, route, FieldUnits.METRES);
    assertEquals(List.of("BM", "BM"), staked.others());
    PlannedLine main = PlannedLine.of(route).get(0);
    Shot second = staked.shots().get(1);
    assertEquals(main.at(12.5).x(), second.x(), 1e-9);
    assertEquals(main.at(12.5).y(), second.y(), 1e-9);
    assertEquals(102.2 - 1.4, second.z(), 1e-9);
  }

  @Test
  void stationsInFeetCountHundreds() throws IOException {
    LevelNotes notes =
        notes("point,BS (ft),IS,FS,known", List.of("BM,4.00,,,330.00", "0+40.0,,3.00,,"));
    Shot shot = StakedShots.of(notes, FieldFixtures.bentRoute(), FieldUnits.FEET).shots().get(0);
    Station at = PlannedLine.of(FieldFixtures.bentRoute()).get(0).at(40 * 0.3048);
    assertEquals(at.x(), shot.x(), 1e-9);
    assertEquals(331 * 0.3048, shot.z(), 1e-9);
  }

  @Test
  void aPipeLaidOnItsStakesIsProvedByTheRod() throws IOException {
    Route route = FieldFixtures.bentRoute();
    List<String> lines = new ArrayList<>(List.of("BM,1.500,,,101.500"));
    for (PlannedLine line : PlannedLine.of(route)) {
      for (double station = 0; station < line.lengthM(); station += 2) {
        lines.add(reading(line, station));
      }
      lines.add(reading(line, line.lengthM()));
    }
    lines.add("BM,,,1.500,");
    LevelNotes notes = notes("point,BS (m),IS,FS,known", lines);
    List<Shot> shots = StakedShots.of(notes, route, FieldUnits.METRES).shots();
    AsBuiltProof proof = AsBuiltProof.of(route, shots, ProofLimits.of(FieldFixtures.LIMITS));
    assertTrue(proof.passed(), proof.checks().toString());
  }

  /** What the rod reads on the planned invert, to the millimetre. */
  private static String reading(PlannedLine line, double stationM) {
    return String.format(
        Locale.ROOT, "%s %.3f,,%.3f,,", line.name(), stationM, 103 - line.at(stationM).invertM());
  }

  @Test
  void aStakeThatTheRouteDoesNotHaveIsRefused() throws IOException {
    checkRefused("99.0", "beyond the end of its line");
    checkRefused("branch 7 1.0", "no line of that name");
  }

  private void checkRefused(String stake, String words) throws IOException {
    LevelNotes notes =
        notes("point,BS (m),IS,FS,known", List.of("BM,1.0,,,100.0", stake + ",,1.0,,"));
    BadInputException refusal =
        assertThrows(
            BadInputException.class,
            () -> StakedShots.of(notes, FieldFixtures.bentRoute(), FieldUnits.METRES));
    assertTrue(refusal.getMessage().contains(words), refusal.getMessage());
  }
}
