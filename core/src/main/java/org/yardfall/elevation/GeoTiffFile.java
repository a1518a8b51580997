package org.yardfall.elevation;

import it.geosolutions.imageio.plugins.tiff.BaselineTIFFTagSet;
import it.geosolutions.imageio.plugins.tiff.TIFFField;
import it.geosolutions.imageioimpl.plugins.tiff.TIFFImageMetadata;
import java.awt.Rectangle;
import java.awt.image.ComponentSampleModel;
import java.awt.image.DataBufferFloat;
import java.awt.image.Raster;
import java.io.File;
import java.io.IOException;
import java.nio.file.Path;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import javax.imageio.ImageReadParam;
import javax.imageio.stream.FileImageInputStream;
import org.yardfall.site.BadInputException;

/**
 * A GeoTIFF of elevations: strips or tiles, classic or BigTIFF, with or without overviews (which
 * are never read). Only the strips or tiles under a window are read, in blocks, on all processors.
 */
final class GeoTiffFile implements RasterFile {

  /** Cells read at a time: enough to be quick, few enough not to need a second copy of it all. */
  private static final int BLOCK_CELLS = 1 << 20;

  private final Path file;
  private final RasterHeader header;
  private final int blockRows;
  private final OptionalInt mask;

  private GeoTiffFile(Path file, RasterHeader header, int tileRows, OptionalInt mask) {
    this.file = file;
    this.header = header;
    this.mask = mask;
    int tiles = Math.max(1, BLOCK_CELLS / Math.max(1, header.cols()) / tileRows);
    this.blockRows = tiles * tileRows;
  }

  /**
   * Opens a file and reads its header.
   *
   * @throws BadInputException where it is no TIFF or holds no elevations
   */
  static GeoTiffFile open(Path file) {
    try (OpenTiff tiff = new OpenTiff(file)) {
      TIFFImageMetadata metadata = (TIFFImageMetadata) tiff.reader.getImageMetadata(0);
      RasterHeader header = new GeoTiffHeader(file, metadata).read(tiff.reader.checkWhole(file));
      return new GeoTiffFile(
          file, header, Math.max(1, tiff.reader.getTileHeight(0)), maskImage(tiff.reader, header));
    } catch (BadInputException e) {
      throw e;
    } catch (IOException | RuntimeException e) {
      throw broken(file, "cannot be read as a TIFF", e);
    }
  }

  @Override
  public RasterHeader header() {
    return header;
  }

  @Override
  public void read(Rectangle window, RowSink sink) {
    int first = window.y / blockRows;
    int last = (window.y + window.height - 1) / blockRows;
    IntStream.rangeClosed(first, last)
        .parallel()
        .forEach(
            block ->
                readBlock(
                    window.intersection(
                        new Rectangle(window.x, block * blockRows, window.width, blockRows)),
                    sink));
  }

  private void readBlock(Rectangle block, RowSink sink) {
    try (OpenTiff tiff = new OpenTiff(file)) {
      Raster samples = tiff.read(0, block);
      Raster known = mask.isPresent() ? tiff.read(mask.getAsInt(), block) : null;
      double[] row = new double[block.width];
      for (int r = 0; r < block.height; r++) {
        copyRow(samples, r, row);
        for (int c = 0; c < row.length; c++) {
          row[c] =
              known != null && known.getSample(known.getMinX() + c, known.getMinY() + r, 0) == 0
                  ? Double.NaN
                  : header.type().fromRaster(row[c]);
        }
        sink.take(block.y + r, row);
      }
    } catch (IOException | RuntimeException e) {
      throw broken(file, "its elevations cannot be read; the file is damaged or cut short", e);
    }
  }

  /** A row of samples; floats, the common case, straight from their array. */
  private static void copyRow(Raster samples, int r, double[] row) {
    int y = samples.getMinY() + r;
    if (samples.getDataBuffer() instanceof DataBufferFloat floats
        && samples.getSampleModel() instanceof ComponentSampleModel model
        && model.getPixelStride() == 1) {
      int at =
          floats.getOffset()
              + model.getOffset(
                  samples.getMinX() - samples.getSampleModelTranslateX(),
                  y - samples.getSampleModelTranslateY());
      float[] data = floats.getData();
      for (int c = 0; c < row.length; c++) {
        row[c] = data[at + c];
      }
    } else {
      samples.getSamples(samples.getMinX(), y, row.length, 1, 0, row);
    }
  }

  /** The image that masks the first one, where the file has one (TIFF tag 254, bit 2). */
  private static OptionalInt maskImage(TiffReader reader, RasterHeader header) throws IOException {
    int images = reader.getNumImages(true);
    for (int i = 1; i < images; i++) {
      TIFFField kind =
          ((TIFFImageMetadata) reader.getImageMetadata(i))
              .getTIFFField(BaselineTIFFTagSet.TAG_NEW_SUBFILE_TYPE);
      if (kind != null
          && kind.getAsInt(0) == 4
          && reader.getWidth(i) == header.cols()
          && reader.getHeight(i) == header.rows()) {
        return OptionalInt.of(i);
      }
    }
    return OptionalInt.empty();
  }

  private static BadInputException broken(Path file, String what, Exception e) {
    String detail = e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
    BadInputException problem =
        new BadInputException(
            file.toString(),
            what + " (" + detail.lines().findFirst().orElse("") + ")",
            "get the file again from its source");
    problem.initCause(e);
    return problem;
  }

  /** A reader and its stream, closed together. */
  private static final class OpenTiff implements AutoCloseable {
    private final FileImageInputStream stream;
    private final TiffReader reader;

    OpenTiff(Path file) throws IOException {
      stream = new FileImageInputStream(new File(file.toString()));
      reader = new TiffReader();
      reader.setInput(stream, false, false);
    }

    Raster read(int image, Rectangle window) throws IOException {
      ImageReadParam param = reader.getDefaultReadParam();
      param.setSourceRegion(window);
      return reader.read(image, param).getRaster();
    }

    @Override
    public void close() throws IOException {
      reader.dispose();
      stream.close();
    }
  }
}
