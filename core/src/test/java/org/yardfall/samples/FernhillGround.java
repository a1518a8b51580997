package org.yardfall.samples;

import java.util.Random;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;

/**
 * The invented ground of the Fernhill sample: two rows of lots on nearly flat clay either side of a
 * street, a hill behind the northern row, a ditch with its spoil bank behind the southern one.
 *
 * <p>{@code u} counts metres east, {@code v} metres north from the sample's south-west corner.
 */
final class FernhillGround {

  static final double WIDTH_M = 400;
  static final double HEIGHT_M = 320;

  /** Lots stand between these, 24 m apart. */
  static final double FIRST_LOT_U = 120;

  static final double LOT_WIDTH_M = 24;
  static final double LOT_DEPTH_M = 44;

  /** The street's right of way. */
  static final double STREET_SOUTH_V = 140;

  static final double STREET_NORTH_V = 156;
  static final double STREET_AXIS_V = 148;

  /** The ditch runs east along this line and turns south at {@link #DITCH_TURN_U}. */
  static final double DITCH_V = 90;

  static final double DITCH_TURN_U = 231;

  /** The street sags at the catch basins. */
  static final double[] BASIN_U = {156, 228};

  /** The hill falls away again behind this line, so the water that reaches the lots begins here. */
  private static final double HILL_CREST_V = 245;

  private static final double NOISE_SMOOTH_M = 0.010;
  private static final double NOISE_WHITE_M = 0.006;

  private FernhillGround() {}

  /** The ground with survey noise, on a grid. */
  static ElevationGrid grid(GridFrame frame, double westM, double southM, long seed) {
    float[] z = new float[frame.size()];
    double[] smooth = smoothNoise(frame.cols(), frame.rows(), new Random(seed));
    Random white = new Random(seed + 1);
    for (int row = 0; row < frame.rows(); row++) {
      for (int col = 0; col < frame.cols(); col++) {
        int cell = row * frame.cols() + col;
        double ground = elevation(frame.x(col) - westM, frame.y(row) - southM);
        double noise = NOISE_SMOOTH_M * smooth[cell] + NOISE_WHITE_M * white.nextGaussian();
        // Whole millimetres: what a point cloud's grid would hold, and it packs well.
        z[cell] = (float) (Math.round((ground + noise) * 1000) / 1000.0);
      }
    }
    return new ElevationGrid(frame, z);
  }

  /** Elevation in metres without noise. */
  static double elevation(double u, double v) {
    double z = plain(u, v);
    z = street(z, u, v);
    z = ditch(z, u, v);
    z = sunkenLot(z, u, v);
    return z;
  }

  /** Centre of a lot's front-to-back axis; lots 1 to 6 north of the street, 7 to 12 south. */
  static double lotCentreU(int lot) {
    return FIRST_LOT_U + LOT_WIDTH_M * ((lot - 1) % 6 + 0.5);
  }

  private static double plain(double u, double v) {
    double z = 240 + 0.001 * (200 - u);
    if (v >= STREET_AXIS_V) {
      z +=
          0.004 * (v - STREET_NORTH_V)
              + 0.03 * (softRamp(v - 201, 3) - 1.6 * softRamp(v - HILL_CREST_V, 5));
      z -= 0.22 * bell(v - 193, 3.5) * plateau(u, 118, 266, 6);
      z -= 0.16 * bell(Math.hypot(u - 158, v - 192), 4.5);
      z -= 0.12 * bell(Math.hypot(u - 226, v - 190), 5);
    } else {
      z += -0.05 - 0.008 * (STREET_SOUTH_V - v) * (v < STREET_SOUTH_V ? 1 : 0);
      z -= 0.10 * bell(v - 103, 4) * plateau(u, 118, 242, 4);
      z -= 0.14 * bell(Math.hypot(u - 181, v - 104), 4.5);
      z -= 0.10 * bell(Math.hypot(u - 132, v - 105), 4);
    }
    for (int lot = 1; lot <= 12; lot++) {
      z += pad(lot, u, v);
    }
    return z;
  }

  /** Houses stand a little high, but lot 5's hardly does and its yard falls toward the house. */
  private static double pad(int lot, double u, double v) {
    double centreV = lot <= 6 ? 178 : 118;
    double across = Math.abs(u - lotCentreU(lot)) - 7;
    double along = Math.abs(v - centreV) - 6;
    double outside = Math.max(0, Math.hypot(Math.max(across, 0), Math.max(along, 0)));
    double height = lot == 5 ? 0.06 : 0.30;
    double rise = height * Math.max(0, 1 - outside / 4.5);
    if (lot == 5) {
      // A shallow trough along the back wall.
      rise -= 0.14 * bell(v - 186, 1.6) * plateau(u, 218, 238, 2);
    }
    return rise;
  }

  private static double street(double ground, double u, double v) {
    double off = Math.abs(v - STREET_AXIS_V);
    if (off > 14) {
      return ground;
    }
    double nearest = Double.MAX_VALUE;
    for (double basin : BASIN_U) {
      nearest = Math.min(nearest, Math.abs(u - basin));
    }
    double crown = 239.62 + 0.004 * Math.min(nearest, 40) + 0.0008 * (200 - u);
    if (off <= 4) {
      return crown - 0.025 * off;
    }
    double verge = crown - 0.10 + 0.15 + 0.02 * (off - 4);
    double blend = Math.max(0, Math.min(1, (off - 6) / 8));
    return verge + (ground - verge) * blend * blend * (3 - 2 * blend);
  }

  private static double ditch(double ground, double u, double v) {
    double off =
        u <= DITCH_TURN_U ? Math.abs(v - DITCH_V) : Math.hypot(u - DITCH_TURN_U, v - DITCH_V);
    double along = Math.min(u, DITCH_TURN_U);
    if (v < DITCH_V) {
      double southward = Math.abs(u - DITCH_TURN_U);
      if (southward < off) {
        off = southward;
        along = DITCH_TURN_U + DITCH_V - v;
      }
    }
    double bed = 238.62 - 0.0015 * along;
    double bank = bed + Math.max(0, off - 0.5) / 1.6;
    double z = ground;
    if (v > DITCH_V && u < DITCH_TURN_U + 8) {
      // The spoil of the ditch lies along its northern edge and dams the yards behind it.
      z += 0.28 * bell(v - 96, 1.5) * (1 - softStep(u - (DITCH_TURN_U + 4), 2));
    }
    return Math.min(z, Math.max(bed, bank));
  }

  /** Lot 12 was dug down for a walk-out and lies below everything around it. */
  private static double sunkenLot(double ground, double u, double v) {
    double inside = Math.min(Math.min(u - 240.3, 263.7 - u), Math.min(v - 97, 139.5 - v));
    if (inside <= 0) {
      return ground;
    }
    double floor = 238.10 + 0.004 * (v - 97);
    double wall = Math.min(1, inside / 1.0);
    double pad = Math.max(0, pad(12, u, v));
    return ground + (Math.min(ground, floor + pad) - ground) * wall;
  }

  private static double bell(double distance, double width) {
    return Math.exp(-0.5 * distance * distance / (width * width));
  }

  private static double softStep(double x, double width) {
    return 1 / (1 + Math.exp(-x / width));
  }

  /** 1 between the two, falling to 0 over the given width outside. */
  private static double plateau(double x, double from, double to, double width) {
    return softStep(x - from, width / 4) * softStep(to - x, width / 4);
  }

  /** 0 well below zero, x well above. */
  private static double softRamp(double x, double width) {
    return width * Math.log1p(Math.exp(x / width));
  }

  /** Unit-variance noise that is alike over about 3 m. */
  private static double[] smoothNoise(int cols, int rows, Random random) {
    double[] noise = new double[cols * rows];
    for (int i = 0; i < noise.length; i++) {
      noise[i] = random.nextGaussian();
    }
    for (int pass = 0; pass < 2; pass++) {
      noise = blur(noise, cols, rows, 1, cols);
      noise = blur(noise, rows, cols, cols, 1);
    }
    double squares = 0;
    for (double value : noise) {
      squares += value * value;
    }
    double deviation = Math.sqrt(squares / noise.length);
    for (int i = 0; i < noise.length; i++) {
      noise[i] /= deviation;
    }
    return noise;
  }

  /** Running mean over seven cells along lines of {@code length} cells. */
  private static double[] blur(double[] in, int length, int lines, int step, int lineStep) {
    double[] out = new double[in.length];
    int half = 3;
    for (int line = 0; line < lines; line++) {
      for (int i = 0; i < length; i++) {
        double sum = 0;
        int count = 0;
        for (int k = Math.max(0, i - half); k <= Math.min(length - 1, i + half); k++) {
          sum += in[line * lineStep + k * step];
          count++;
        }
        out[line * lineStep + i * step] = sum / count;
      }
    }
    return out;
  }
}
