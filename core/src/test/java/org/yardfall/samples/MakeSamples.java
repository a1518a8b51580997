package org.yardfall.samples;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.util.AffineTransformation;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.layer.Field;
import org.yardfall.layer.GeoTiffWriter;
import org.yardfall.layer.Layer;
import org.yardfall.layer.ShapefileLayerWriter;
import org.yardfall.site.CrsLookup;
import org.yardfall.site.PlaneTransform;
import org.yardfall.site.WorkingCrs;

/**
 * Makes the data of the samples, which are all invented: the same bytes each time. The site files
 * beside them are written by hand.
 */
public final class MakeSamples {

  private static final long SEED = 20260101;

  private MakeSamples() {}

  /** Makes the data in the given samples folder. */
  public static void main(String[] args) throws IOException {
    make(Path.of(args[0]));
  }

  static void make(Path samples) throws IOException {
    fernhill(Files.createDirectories(samples.resolve("fernhill")));
    alderRow(Files.createDirectories(samples.resolve("alder-row")));
  }

  private static void fernhill(Path folder) throws IOException {
    WorkingCrs crs = CrsLookup.of("EPSG:26915");
    GridFrame frame =
        new GridFrame(
            800, 640, FernhillPlan.WEST_M, FernhillPlan.SOUTH_M + FernhillGround.HEIGHT_M, 0.5);
    ElevationGrid ground =
        FernhillGround.grid(frame, FernhillPlan.WEST_M, FernhillPlan.SOUTH_M, SEED);
    GeoTiffWriter.write(folder.resolve("dem.tif"), frame, ground.z(), crs, "metre");
    PlaneTransform toWgs84 = PlaneTransform.toWgs84(crs);
    geoJson(folder, "parcels", FernhillPlan.parcels(), toWgs84);
    geoJson(folder, "buildings", FernhillPlan.buildings(), toWgs84);
    geoJson(folder, "crossings", FernhillPlan.crossings(), toWgs84);
    geoJson(folder, "obstacles", FernhillPlan.obstacles(), toWgs84);
  }

  private static void alderRow(Path folder) throws IOException {
    WorkingCrs crs = CrsLookup.of("EPSG:2264");
    double foot = crs.metresPerUnit();
    GridFrame frame =
        new GridFrame(
            AlderRow.COLS,
            AlderRow.ROWS,
            AlderRow.WEST_FT * foot,
            (AlderRow.SOUTH_FT + AlderRow.ROWS) * foot,
            foot);
    double[] feet = AlderRow.elevationsFt(SEED);
    float[] values = new float[feet.length];
    for (int i = 0; i < feet.length; i++) {
      values[i] = (float) feet[i];
    }
    GeoTiffWriter.write(folder.resolve("dem.tif"), frame, values, crs, "US survey foot");
    for (String layer : List.of("parcels", "buildings", "crossings")) {
      Files.deleteIfExists(folder.resolve(layer + ".shp"));
      Files.deleteIfExists(folder.resolve(layer + ".shx"));
      Files.deleteIfExists(folder.resolve(layer + ".dbf"));
    }
    ShapefileLayerWriter shapefiles = new ShapefileLayerWriter(crs);
    AffineTransformation toMetres = AffineTransformation.scaleInstance(foot, foot);
    shapefiles.write(layer("parcels", AlderRow.parcels(), toMetres), folder);
    shapefiles.write(layer("buildings", AlderRow.buildings(), toMetres), folder);
    shapefiles.write(layer("crossings", AlderRow.crossings(), toMetres), folder);
  }

  private static void geoJson(
      Path folder, String name, List<Feature> features, PlaneTransform toWgs84) throws IOException {
    Files.write(folder.resolve(name + ".geojson"), FeatureFile.geoJson(features, toWgs84));
  }

  /** Features in feet as a layer on the working plane, with the fields of the first. */
  private static Layer layer(String name, List<Feature> features, AffineTransformation toMetres) {
    List<Field> fields = new ArrayList<>();
    for (Map.Entry<String, Object> field : features.get(0).fields().entrySet()) {
      boolean number = field.getValue() instanceof Number;
      fields.add(
          new Field(field.getKey(), number ? Field.Type.REAL : Field.Type.TEXT, number ? 4 : 0));
    }
    List<org.yardfall.layer.Feature> rows = new ArrayList<>();
    for (Feature feature : features) {
      Geometry shape = toMetres.transform(feature.shape());
      rows.add(new org.yardfall.layer.Feature(shape, new ArrayList<>(feature.fields().values())));
    }
    return new Layer(name, name, Layer.Shape.AREA, fields, rows);
  }
}
