package org.yardfall.elevation;

import java.util.Optional;

/** How a raster stores one cell's value. */
enum SampleType {
  UINT8("8-bit unsigned integer", true),
  INT8("8-bit signed integer", true),
  UINT16("16-bit unsigned integer", true),
  INT16("16-bit signed integer", true),
  UINT32("32-bit unsigned integer", true),
  INT32("32-bit signed integer", true),
  FLOAT32("32-bit float", false),
  FLOAT64("64-bit float", false),
  TEXT("decimal text", false);

  private final String words;
  private final boolean integer;

  SampleType(String words, boolean integer) {
    this.words = words;
    this.integer = integer;
  }

  /**
   * The type by TIFF's SampleFormat (1 unsigned, 2 signed, 3 float) and BitsPerSample; empty for
   * those that hold no elevations or that cannot be read (complex, half floats, bits).
   */
  static Optional<SampleType> ofTiff(int format, int bits) {
    return Optional.ofNullable(
        switch (format * 100 + bits) {
          case 108 -> UINT8;
          case 116 -> UINT16;
          case 132 -> UINT32;
          case 208 -> INT8;
          case 216 -> INT16;
          case 232 -> INT32;
          case 332 -> FLOAT32;
          case 364 -> FLOAT64;
          default -> null;
        });
  }

  /** The type in words. */
  String words() {
    return words;
  }

  /** Whether only whole numbers can be stored. */
  boolean integer() {
    return integer;
  }

  /**
   * The value as it reads back after being stored in this type, NaN where it cannot be stored. A
   * NoData value is written as text and must be cast so before any cell can equal it.
   */
  double cast(double value) {
    return switch (this) {
      case UINT8 -> whole(value, 0, 255);
      case INT8 -> whole(value, Byte.MIN_VALUE, Byte.MAX_VALUE);
      case UINT16 -> whole(value, 0, 65_535);
      case INT16 -> whole(value, Short.MIN_VALUE, Short.MAX_VALUE);
      case UINT32 -> whole(value, 0, 4_294_967_295.0);
      case INT32 -> whole(value, Integer.MIN_VALUE, Integer.MAX_VALUE);
      case FLOAT32 -> (float) value;
      case FLOAT64, TEXT -> value;
    };
  }

  /** The value that a raster's sample, read as a signed or unsigned number, stands for. */
  double fromRaster(double sample) {
    return switch (this) {
      case INT8 -> (byte) (int) sample;
      case UINT32 -> sample < 0 ? sample + 4_294_967_296.0 : sample;
      default -> sample;
    };
  }

  private static double whole(double value, double least, double greatest) {
    return value >= least && value <= greatest && value == Math.rint(value) ? value : Double.NaN;
  }
}
