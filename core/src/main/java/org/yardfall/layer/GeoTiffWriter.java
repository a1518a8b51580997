package org.yardfall.layer;

import it.geosolutions.imageio.plugins.tiff.PrivateTIFFTagSet;
import it.geosolutions.imageio.plugins.tiff.TIFFField;
import it.geosolutions.imageio.plugins.tiff.TIFFTag;
import it.geosolutions.imageioimpl.plugins.tiff.TIFFIFD;
import it.geosolutions.imageioimpl.plugins.tiff.TIFFImageMetadata;
import it.geosolutions.imageioimpl.plugins.tiff.TIFFImageWriter;
import it.geosolutions.imageioimpl.plugins.tiff.TIFFImageWriterSpi;
import java.awt.Point;
import java.awt.color.ColorSpace;
import java.awt.image.BufferedImage;
import java.awt.image.ComponentColorModel;
import java.awt.image.DataBuffer;
import java.awt.image.DataBufferFloat;
import java.awt.image.PixelInterleavedSampleModel;
import java.awt.image.Raster;
import java.io.IOException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.imageio.IIOImage;
import javax.imageio.ImageTypeSpecifier;
import javax.imageio.ImageWriteParam;
import javax.imageio.metadata.IIOMetadata;
import javax.imageio.stream.FileImageOutputStream;
import org.geotools.coverage.grid.io.imageio.geotiff.CRS2GeoTiffMetadataAdapter;
import org.geotools.coverage.grid.io.imageio.geotiff.GeoTiffException;
import org.geotools.coverage.grid.io.imageio.geotiff.GeoTiffIIOMetadataEncoder;
import org.w3c.dom.Node;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.WorkingCrs;

/**
 * Writes a grid of numbers as a GeoTIFF: 32-bit floats in tiles, deflated, placed in the working
 * CRS in its own unit of length, with NoData and the numbers' unit where GDAL looks for them. The
 * same grid gives the same bytes.
 */
public final class GeoTiffWriter {

  /** NoData where the caller has no other wish: no elevation, depth or area has it. */
  public static final float NO_DATA = -9999;

  private static final int TILE = 256;

  /** Level 1 of 9: for elevations hardly larger than the tightest, in a fraction of the time. */
  private static final float FAST = 0;

  /** GeoTIFF Standard 1.1 (OGC 19-008r4): model type, raster type, CRS, unit of length. */
  private static final int MODEL_TYPE = 1024;

  private static final int RASTER_TYPE = 1025;
  private static final int PROJECTED_CRS = 3072;
  private static final int PROJECTED_UNIT = 3076;

  /** Enough for a tenth of a millimetre anywhere; hides the rounding of feet to metres and back. */
  private static final MathContext DIGITS = new MathContext(13);

  private GeoTiffWriter() {}

  /**
   * Writes a grid.
   *
   * @param file where to; an existing file is replaced
   * @param frame where the grid lies on the working plane
   * @param values a number for each cell, row by row from the north-west; NaN where not known
   * @param crs the working CRS
   * @param unit the numbers' unit in words, for example {@code metre}, {@code US survey foot},
   *     {@code m2}; empty for none
   * @throws IOException if the file cannot be written; none is left then
   */
  public static void write(Path file, GridFrame frame, float[] values, WorkingCrs crs, String unit)
      throws IOException {
    BufferedImage image = image(frame, values);
    TIFFImageWriter writer = (TIFFImageWriter) new TIFFImageWriterSpi().createWriterInstance();
    Files.deleteIfExists(file);
    boolean done = false;
    try (FileImageOutputStream out = new FileImageOutputStream(file.toFile())) {
      writer.setOutput(out);
      ImageWriteParam param = writer.getDefaultWriteParam();
      param.setTilingMode(ImageWriteParam.MODE_EXPLICIT);
      param.setTiling(TILE, TILE, 0, 0);
      param.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
      param.setCompressionType("Deflate");
      param.setCompressionQuality(FAST); // the writer takes most of its time to deflate
      writer.write(
          null, new IIOImage(image, null, metadata(writer, param, image, frame, crs, unit)), param);
      done = true;
    } finally {
      writer.dispose();
      if (!done) {
        Files.deleteIfExists(file);
      }
    }
  }

  private static BufferedImage image(GridFrame frame, float[] values) {
    if (values.length != frame.size()) {
      throw new IllegalArgumentException(values.length + " values for " + frame);
    }
    float[] marked = values.clone();
    for (int i = 0; i < marked.length; i++) {
      if (Float.isNaN(marked[i])) {
        marked[i] = NO_DATA;
      }
    }
    ComponentColorModel grey =
        new ComponentColorModel(
            ColorSpace.getInstance(ColorSpace.CS_GRAY),
            false,
            false,
            ComponentColorModel.OPAQUE,
            DataBuffer.TYPE_FLOAT);
    PixelInterleavedSampleModel samples =
        new PixelInterleavedSampleModel(
            DataBuffer.TYPE_FLOAT, frame.cols(), frame.rows(), 1, frame.cols(), new int[] {0});
    return new BufferedImage(
        grey,
        Raster.createWritableRaster(
            samples, new DataBufferFloat(marked, marked.length), new Point()),
        false,
        null);
  }

  private static IIOMetadata metadata(
      TIFFImageWriter writer,
      ImageWriteParam param,
      BufferedImage image,
      GridFrame frame,
      WorkingCrs crs,
      String unit)
      throws IOException {
    GeoTiffIIOMetadataEncoder keys = keys(crs);
    double cell = inCrsUnit(frame.cellM(), crs);
    keys.setModelPixelScale(cell, cell);
    keys.setModelTiePoint(0, 0, inCrsUnit(frame.westM(), crs), inCrsUnit(frame.northM(), crs));
    IIOMetadata plain =
        writer.getDefaultImageMetadata(ImageTypeSpecifier.createFromRenderedImage(image), param);
    Node tree = plain.getAsTree(TIFFImageMetadata.nativeMetadataFormatName);
    keys.assignTo((org.w3c.dom.Element) tree);
    TIFFIFD directory = TIFFImageMetadata.parseIFD(tree.getFirstChild());
    addText(directory, "GDAL_NODATA", PrivateTIFFTagSet.TAG_GDAL_NODATA, "-9999");
    if (!unit.isEmpty()) {
      addText(
          directory,
          "GDAL_METADATA",
          PrivateTIFFTagSet.TAG_GDAL_METADATA,
          "<GDALMetadata>\n  <Item name=\"UNITTYPE\" sample=\"0\" role=\"unittype\">"
              + unit.replace("&", "&amp;").replace("<", "&lt;")
              + "</Item>\n</GDALMetadata>\n");
    }
    return new TIFFImageMetadata(directory);
  }

  private static void addText(TIFFIFD directory, String name, int number, String text) {
    directory.addTIFFField(
        new TIFFField(
            new TIFFTag(name, number, 1 << TIFFTag.TIFF_ASCII),
            TIFFTag.TIFF_ASCII,
            1,
            new String[] {text}));
  }

  private static GeoTiffIIOMetadataEncoder keys(WorkingCrs crs) throws IOException {
    if (!crs.name().matches("EPSG:\\d+")) {
      try {
        return new CRS2GeoTiffMetadataAdapter(crs.crs()).parseCoordinateReferenceSystem();
      } catch (GeoTiffException e) {
        throw new IOException("the CRS " + crs.name() + " cannot be written to a GeoTIFF", e);
      }
    }
    GeoTiffIIOMetadataEncoder keys = new GeoTiffIIOMetadataEncoder();
    keys.addGeoShortParam(MODEL_TYPE, 1);
    keys.addGeoShortParam(RASTER_TYPE, 1);
    keys.addGeoShortParam(PROJECTED_CRS, Integer.parseInt(crs.name().substring(5)));
    int unit = epsgUnit(crs.metresPerUnit());
    if (unit > 0) {
      keys.addGeoShortParam(PROJECTED_UNIT, unit);
    }
    return keys;
  }

  private static int epsgUnit(double metres) {
    return metres == 1
        ? 9001
        : metres == WorkingCrs.INTERNATIONAL_FOOT_M
            ? 9002
            : metres == WorkingCrs.US_SURVEY_FOOT_M ? 9003 : 0;
  }

  private static double inCrsUnit(double metres, WorkingCrs crs) {
    return crs.metresPerUnit() == 1
        ? metres
        : new BigDecimal(crs.toCrsUnit(metres)).round(DIGITS).doubleValue();
  }
}
