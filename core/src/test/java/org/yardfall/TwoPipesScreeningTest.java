package org.yardfall;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.TakeOff;
import org.yardfall.elevation.ElevationSource;
import org.yardfall.layer.Result;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.site.Assumption;
import org.yardfall.site.SiteReader;

/**
 * Two pipes in place of one under a walk, through the whole plan ({@code common practice, no
 * source}). Level ground at 10 m with a hollow of 5 cm, a walk of 4 in on 4 in of base across the
 * way out, and an inch of earth under that, as assumed; a 6 in pipe of 168 mm outside lies at 10 −
 * 0.229 − 0.168 = 9.603 m at most where it goes under, so 7.2 m on at 9.531 m: below the basin's
 * invert of 9.56 m. Two of 114 mm reach it.
 */
class TwoPipesScreeningTest {

  private static final double EAST = 500_000;
  private static final double NORTH = 5_000_000;

  @TempDir Path folder;

  @Test
  void theWholePlanLaysTwoPipesWhereOneWouldLeaveABelly() throws IOException {
    Result result = plan(9.56);
    Route route = result.routes().get(0);
    assertTrue(route.audit().passed());
    assertEquals(1, route.bores().size());
    assertEquals(2, route.bores().get(0).pipes().count());
    assertEquals(4, route.bores().get(0).pipes().pipe().nominalIn(), 0);
    for (Station s : route.main().stations()) {
      if (s.span() == Station.Span.BORED) {
        assertTrue(s.groundM() - s.invertM() >= 9 * 0.0254 + 4.5 * 0.0254 - 1e-3, s.toString());
      }
    }
    List<String> assumed = result.assumptions().stream().map(Assumption::about).toList();
    assertTrue(assumed.containsAll(List.of("crossings cover", "route.slabs")), "" + assumed);
    DrainDesign design = result.design(route).orElseThrow();
    assertEquals(2 * route.bores().get(0).lengthM(), needed(design.takeOff(), "bore"), 1e-6);
    assertEquals(2, needed(design.takeOff(), "slab-wye"), 0);
  }

  @Test
  void theWholePlanLaysOneWhereItFits() throws IOException {
    Route route = plan(9.45).routes().get(0);
    assertEquals(1, route.bores().get(0).pipes().count());
  }

  private Result plan(double invertM) throws IOException {
    Files.writeString(folder.resolve("dem.asc"), ground());
    Files.writeString(folder.resolve("lot.geojson"), box("LOT", "1", 4, 15, 16, 32));
    Files.writeString(folder.resolve("walk.geojson"), box("thickness", "0.1016", 2, 20, 18, 21.2));
    Path site =
        Files.writeString(
            folder.resolve("site.yml"),
            String.format(
                Locale.ROOT,
                """
                site: { crs: EPSG:26915 }
                elevation: { files: [dem.asc], crs: EPSG:26915, vertical-unit: m, accuracy: 0.01 m }
                parcels: { file: lot.geojson, id: LOT, lot: "1" }
                crossings: { file: walk.geojson }
                outlets: [ { id: CB1, kind: catch-basin, at: [%.1f, %.1f], invert: %.2f m } ]
                drain: { min-grade: 1 %%, min-cover: 0.03 m, max-depth: 1.2 m, setback: 0.6 m,
                  trench-width: 18 in, pipe: 6 in }
                """,
                EAST + 10,
                NORTH + 14,
                invertM));
    return Screening.of(SiteReader.read(site, ElevationSource.PLANES)).run();
  }

  /** 20 m by 40 m in cells of half a metre. */
  private static String ground() {
    StringBuilder text =
        new StringBuilder(
            String.format(
                Locale.ROOT,
                "ncols 40%nnrows 80%nxllcorner %.1f%nyllcorner %.1f%ncellsize 0.5%n"
                    + "NODATA_value -9999%n",
                EAST,
                NORTH));
    for (int row = 0; row < 80; row++) {
      double y = 40 - (row + 0.5) / 2;
      for (int col = 0; col < 40; col++) {
        double x = (col + 0.5) / 2;
        double away = Math.hypot(x - 10, y - 27) / 3;
        double z = 10 - 0.05 * Math.max(0, Math.min(1, 2 * (1 - away)));
        text.append(String.format(Locale.ROOT, "%.4f ", z));
      }
      text.append(System.lineSeparator());
    }
    return text.toString();
  }

  private static String box(
      String field, String value, double west, double south, double east, double north) {
    return String.format(
        Locale.ROOT,
        """
        { "type": "FeatureCollection",
          "crs": { "type": "name", "properties": { "name": "EPSG:26915" } },
          "features": [ { "type": "Feature", "properties": { "%1$s": "%2$s", "base": "0.1016" },
            "geometry": { "type": "Polygon", "coordinates": [ [ [%3$.1f, %4$.1f], [%5$.1f, %4$.1f],
              [%5$.1f, %6$.1f], [%3$.1f, %6$.1f], [%3$.1f, %4$.1f] ] ] } } ] }
        """,
        field,
        value,
        EAST + west,
        NORTH + south,
        EAST + east,
        NORTH + north);
  }

  private static double needed(TakeOff bill, String code) {
    return bill.lines().stream()
        .filter(line -> line.code().equals(code))
        .mapToDouble(TakeOff.Line::needed)
        .sum();
  }
}
