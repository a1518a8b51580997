package org.yardfall.elevation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.site.BadInputException;
import org.yardfall.site.CrsLookup;
import org.yardfall.site.ElevationInput;
import org.yardfall.site.Outlet;
import org.yardfall.site.ShotInput;
import org.yardfall.site.ShotRole;
import org.yardfall.site.Site;
import org.yardfall.site.SiteReader;
import org.yardfall.site.WorkingCrs;

/** Outlets and buildings by field code; the yard is invented, the culverts are a real survey's. */
class SurveyedFeaturesTest {

  private static final WorkingCrs CRS = CrsLookup.of("EPSG:26915");

  private static final Map<String, ShotRole> CODES =
      Map.of("CB", ShotRole.CATCH_BASIN, "INV", ShotRole.OUTLET, "BLD", ShotRole.BUILDING_CORNER);

  /** A house of 8 m by 6 m, its corners in order. */
  private static final List<String> HOUSE =
      List.of(
          "201,500010,4980010,50.30,BLD 1",
          "202,500018,4980010,50.30,BLD 1",
          "203,500018,4980016,50.35,BLD 1",
          "204,500010,4980016,50.35,BLD 1");

  @TempDir private Path folder;

  /** A yard of shots 5 m apart that falls 1 % to the east, with further shots. */
  private Path yard(List<String> more) throws IOException {
    List<String> lines = new ArrayList<>();
    for (int i = 0; i < 49; i++) {
      int x = 5 * (i % 7);
      int y = 5 * (i / 7);
      lines.add(
          String.format(
              Locale.ROOT, "%d,%d,%d,%.2f", i + 1, 500_000 + x, 4_980_000 + y, 50.5 - 0.01 * x));
    }
    lines.addAll(more);
    return Files.write(folder.resolve("yard.csv"), lines);
  }

  private static ElevationSource open(Path shots, String columns, Map<String, ShotRole> codes) {
    return ElevationSource.open(
        new ElevationInput(
            List.of(),
            shots,
            columns,
            OptionalDouble.empty(),
            "",
            OptionalDouble.empty(),
            null,
            new ShotInput(
                OptionalDouble.empty(),
                codes,
                null,
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                false),
            ""),
        CRS);
  }

  private SurveyedFeatures features(String... more) throws IOException {
    return open(yard(List.of(more)), "PENZD", CODES).features();
  }

  @Test
  void anOutletHasItsShotsPlaceAndInvertAndIsNoGround() throws IOException {
    ElevationSource source =
        open(yard(List.of("301,500028,4980012,48.90,CB grate")), "PENZD", CODES);
    Outlet outlet = source.features().outlets().get(0);
    assertEquals("301", outlet.id());
    assertEquals(Outlet.Kind.CATCH_BASIN, outlet.kind());
    assertEquals(48.90, outlet.invertM().orElseThrow());
    assertEquals(new Coordinate(500_028, 4_980_012), outlet.at());
    double ground = source.read(source.extentM()).ground().bilinear(500_028, 4_980_012);
    assertEquals(50.5 - 0.28, ground, 0.001);
    assertTrue(source.features().assumptions().get(0).source().contains("shot 301 (CB grate)"));
  }

  @Test
  void anOutletOfNoStatedKindIsADitchAndSaysSo() throws IOException {
    SurveyedFeatures features = features("302,500028,4980012,49.00,INV");
    assertEquals(Outlet.Kind.DITCH, features.outlets().get(0).kind());
    assertTrue(features.assumptions().get(0).source().contains("its kind is not stated"));
  }

  @Test
  void cornersInOrderMakeAHouse() throws IOException {
    SurveyedFeatures features = features(HOUSE.toArray(String[]::new));
    assertEquals(1, features.buildings().size());
    assertEquals(48, features.buildings().get(0).outline().getArea(), 1e-6);
    assertTrue(features.assumptions().get(0).source().contains("corners 201, 202, 203, 204"));
  }

  @Test
  void cornersThatMakeNoHouseAreRefused() throws IOException {
    checkRefused("fewer than three", HOUSE.get(0), HOUSE.get(1));
    checkRefused("crosses itself", HOUSE.get(0), HOUSE.get(2), HOUSE.get(1), HOUSE.get(3));
  }

  private void checkRefused(String words, String... more) {
    BadInputException refusal = assertThrows(BadInputException.class, () -> features(more));
    assertEquals(1, refusal.problems().size());
    assertTrue(refusal.getMessage().contains(words), refusal.getMessage());
  }

  @Test
  void whatTheSiteFileGivesStands() throws IOException {
    Path shots = yard(List.of("301,500028,4980012,48.90,CB", "303,500028,4980027,48.80,CB"));
    Path file =
        Files.writeString(
            folder.resolve("site.yml"),
            """
            site: { crs: EPSG:26915 }
            elevation: { shots: yard.csv, columns: PENZD, codes: { CB: catch-basin } }
            outlets: [ { id: A, kind: catch-basin, at: [500028.1, 4980012], invert: 48.7 m } ]
            """);
    Site site = SiteReader.read(file, ElevationSource.PLANES);
    Site surveyed = open(shots, "PENZD", CODES).features().on(site);
    assertEquals("[A, 303]", surveyed.outlets().stream().map(Outlet::id).toList().toString());
    assertEquals(48.7, surveyed.outlets().get(0).invertM().orElseThrow());
    assertTrue(surveyed.warnings().get(0).contains("outlet A is given in the site file and shot"));
    // Read again with what was written out of it, nothing is doubled and nothing said.
    Site again = open(shots, "PENZD", CODES).features().on(site.withOutlets(surveyed.outlets()));
    assertEquals(surveyed.outlets(), again.outlets());
  }

  @Test
  void aRealSurveysCulvertInvertsAreOutlets() throws Exception {
    Path creek = Path.of(getClass().getResource("survey/creek.xml").toURI());
    ElevationSource source =
        open(
            creek,
            null,
            Map.of("BINV", ShotRole.DITCH, "CULX", ShotRole.IGNORE, "BAR", ShotRole.IGNORE));
    List<Outlet> culverts = source.features().outlets();
    assertEquals(6, culverts.size());
    Outlet south =
        culverts.stream().filter(outlet -> outlet.id().equals("1029")).findFirst().orElseThrow();
    assertEquals(802.524953807 * 0.3048, south.invertM().orElseThrow(), 1e-9);
    assertEquals(31_557.701614536327 * 0.3048, south.at().x, 1e-6);
    // The pipe's crown lies 1.4 m above its inverts and neither is ground: the bed is there.
    double bed = source.read(source.extentM()).ground().bilinear(south.at().x, south.at().y);
    assertFalse(Double.isNaN(bed));
    assertTrue(bed < 807 * 0.3048, "bed " + bed);
  }
}
