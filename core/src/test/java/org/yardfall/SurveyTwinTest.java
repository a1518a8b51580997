package org.yardfall;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.algorithm.distance.DiscreteHausdorffDistance;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.yardfall.elevation.ElevationSource;
import org.yardfall.layer.Result;
import org.yardfall.route.Route;
import org.yardfall.site.SiteReader;
import org.yardfall.water.LowSpot;

/**
 * The same ground as a raster of 9003 laser points and as 644 shots, one of fourteen of them, with
 * no breakline along its ditch (public data, NOTICE beside them): a lot drawn on both must have the
 * same low spots and the same best drain. The lot and its outlet are invented.
 */
class SurveyTwinTest {

  private static final String LOT =
      """
      { "type": "FeatureCollection",
        "crs": { "type": "name", "properties": { "name": "EPSG:2903" } },
        "features": [ { "type": "Feature", "properties": { "LOT": "1" }, "geometry":
          { "type": "Polygon", "coordinates": [ [ [1639685, 1454525], [1639765, 1454525],
            [1639765, 1454620], [1639685, 1454620], [1639685, 1454525] ] ] } } ] }
      """;

  @TempDir Path folder;

  private Result plan(String elevation) throws IOException {
    Files.writeString(folder.resolve("lot.geojson"), LOT);
    Path site =
        Files.writeString(
            folder.resolve("site.yml"),
            """
            site: { crs: EPSG:2903 }
            elevation: { %s }
            parcels: { file: lot.geojson, id: LOT, lot: "1" }
            outlets: [ { id: D1, kind: ditch, at: [1639673, 1454618], invert: 7080.8 ftUS } ]
            """
                .formatted(elevation));
    return Screening.of(SiteReader.read(site, ElevationSource.PLANES)).run();
  }

  private static Path data(String name) throws Exception {
    return Path.of(ElevationSource.class.getResource("survey/" + name).toURI());
  }

  @Test
  void theSameLowSpotsAndTheSameBestDrain() throws Exception {
    Result raster = plan("files: [" + data("ditch-raster.tif") + "]");
    Result shots = plan("shots: " + data("ditch-shots.csv") + ", columns: PNEZD, unit: ftUS");
    assertEquals(List.of(), real(raster));
    assertEquals(List.of(), real(shots));
    // Where the shots leave the ditch's bed open, their triangles dam it twice: said, not drained.
    List<LowSpot> dams = shots.water().lowSpots();
    assertFalse(dams.isEmpty());
    dams.forEach(dam -> assertTrue(dam.doubtful().contains("may be open"), dam.doubtful()));

    Route a = raster.routes().get(0);
    Route b = shots.routes().get(0);
    assertEquals(a.kind(), b.kind());
    assertEquals(a.outletId(), b.outletId());
    // The raster shows a trickle more, over the west line, and its drain goes there too; else the
    // lines are as far apart as the shots are spaced.
    DiscreteHausdorffDistance apart = new DiscreteHausdorffDistance(all(b), all(a));
    apart.setDensifyFraction(0.1);
    double apartM = apart.orientedDistance();
    assertTrue(apartM < 3, () -> "the lines are " + apartM + " m apart");
  }

  private static List<LowSpot> real(Result result) {
    return result.water().lowSpots().stream().filter(s -> s.doubtful().isEmpty()).toList();
  }

  private static Geometry all(Route route) {
    return new GeometryFactory()
        .createMultiLineString(
            Stream.concat(
                    Stream.of(route.main()), route.branches().stream().map(Route.Branch::line))
                .map(l -> l.vertices().toArray(Coordinate[]::new))
                .map(new GeometryFactory()::createLineString)
                .toArray(LineString[]::new));
  }
}
