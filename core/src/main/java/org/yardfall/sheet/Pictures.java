package org.yardfall.sheet;

import java.awt.image.BufferedImage;
import java.io.BufferedOutputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Iterator;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.MemoryCacheImageOutputStream;

/** Pictures as files, by the JDK's own writers whatever others stand on the class path. */
final class Pictures {

  private Pictures() {}

  static void writePng(BufferedImage image, Path file) throws IOException {
    try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file))) {
      write(image, "png", Float.NaN, out);
    }
  }

  static byte[] png(BufferedImage image) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    write(image, "png", Float.NaN, out);
    return out.toByteArray();
  }

  /**
   * A picture without transparency as JPEG.
   *
   * @param quality 0 to 1
   */
  static byte[] jpeg(BufferedImage image, float quality) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    write(image, "jpeg", quality, out);
    return out.toByteArray();
  }

  private static void write(BufferedImage image, String format, float quality, OutputStream out)
      throws IOException {
    ImageWriter writer = writer(format);
    try (MemoryCacheImageOutputStream stream = new MemoryCacheImageOutputStream(out)) {
      ImageWriteParam param = writer.getDefaultWriteParam();
      if (!Float.isNaN(quality)) {
        param.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
        param.setCompressionQuality(quality);
      }
      writer.setOutput(stream);
      writer.write(null, new IIOImage(image, null, null), param);
    } finally {
      writer.dispose();
    }
  }

  private static ImageWriter writer(String format) {
    Iterator<ImageWriter> writers = ImageIO.getImageWritersByFormatName(format);
    while (writers.hasNext()) {
      ImageWriter writer = writers.next();
      if (writer.getClass().getName().startsWith("com.sun.imageio.")) {
        return writer;
      }
    }
    throw new IllegalStateException("Java has no " + format + " writer");
  }
}
