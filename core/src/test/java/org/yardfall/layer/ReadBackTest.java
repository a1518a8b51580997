package org.yardfall.layer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.locationtech.jts.geom.Geometry;
import org.yardfall.elevation.ElevationSource;
import org.yardfall.site.Site;
import org.yardfall.site.SiteReader;

/** The files of a result serve as the files of a site: their layers are read by name. */
class ReadBackTest {

  @TempDir Path folder;

  @ParameterizedTest
  @ValueSource(strings = {"site.gpkg", "site.kml"})
  void layersAreReadByName(String file) throws Exception {
    Result result = ResultFixture.metric();
    LayerSet layers = LayerSet.of(result);
    new GeoPackageWriter(result.site().crs()).write(layers, folder.resolve("site.gpkg"));
    new KmlWriter(result.site().crs()).write("", layers, folder.resolve("site.kml"));
    Path dem = Path.of("..", "samples", "fernhill", "dem.tif").toAbsolutePath().normalize();
    Files.writeString(
        folder.resolve("site.yml"),
        """
        site: { crs: "EPSG:26915" }
        elevation: { files: ["%2$s"], vertical-unit: m }
        parcels: { file: %1$s, layer: lot, id: id, lot: "7" }
        outlets: { file: %1$s, layer: outlets, id: id }
        """
            .formatted(file, dem));
    Site site = SiteReader.read(folder.resolve("site.yml"), ElevationSource.PLANES);
    Geometry lot = site.lot().orElseThrow().outline();
    Geometry given = result.site().lot().orElseThrow().outline();
    assertTrue(lot.norm().equalsExact(given.norm(), 0.001));
    assertEquals(result.outlets().size(), site.outlets().size());
    assertEquals("CB1", site.outlets().get(0).id());
    assertEquals(0, site.outlets().get(0).at().distance(result.outlets().get(0).at()), 0.001);
  }
}
