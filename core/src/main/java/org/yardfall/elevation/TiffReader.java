package org.yardfall.elevation;

import it.geosolutions.imageioimpl.plugins.tiff.TIFFImageReader;
import it.geosolutions.imageioimpl.plugins.tiff.TIFFImageReaderSpi;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.yardfall.site.BadInputException;

/**
 * The library's TIFF reader, made to say when a file was cut short. By itself it gives zeros for
 * the strips or tiles that the file no longer holds.
 */
final class TiffReader extends TIFFImageReader {

  private static final TIFFImageReaderSpi PROVIDER = new TIFFImageReaderSpi();

  TiffReader() {
    super(PROVIDER);
  }

  /**
   * Checks that the file is as long as its directory of strips or tiles says.
   *
   * @return how many of the first image's strips or tiles were never written
   * @throws BadInputException where the file ends too early
   */
  int checkWhole(Path file) throws IOException {
    long across = (getWidth(0) + getTileWidth(0) - 1L) / getTileWidth(0);
    long down = (getHeight(0) + getTileHeight(0) - 1L) / getTileHeight(0);
    long size = Files.size(file);
    int unwritten = 0;
    for (int i = 0; i < across * down; i++) {
      long offset = getTileOrStripOffset(i);
      long length = getTileOrStripByteCount(i);
      if (length == 0 || offset == 0) {
        unwritten++;
      } else if (offset + length > size) {
        throw new BadInputException(
            file.toString(),
            "it is cut short: part "
                + (i + 1)
                + " of "
                + across * down
                + " should end at byte "
                + (offset + length)
                + ", the file has "
                + size,
            "get the file again from its source");
      }
    }
    return unwritten;
  }
}
