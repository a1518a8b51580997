package org.yardfall.water;

import org.yardfall.elevation.GridFrame;

/**
 * Where each cell's water goes: down the slope to one of its eight neighbours, over flats toward
 * their outlet. The codes are an inner matter and never leave the program.
 *
 * @param frame the grid
 * @param toward by cell: 0 to 7 for the neighbour east, north-east, north … counter-clockwise;
 *     {@link #LEAVES} where the water leaves the known ground; {@link #UNKNOWN} where the ground is
 *     not known
 */
@SuppressWarnings("ArrayRecordComponent") // a hot-loop array, deliberately shared
public record FlowField(GridFrame frame, byte[] toward) {

  /** The water leaves the known ground here: over the raster's edge or into unknown ground. */
  public static final byte LEAVES = 8;

  /** The ground is not known here. */
  public static final byte UNKNOWN = 9;

  /** Checks the size. */
  public FlowField {
    if (toward.length != frame.size()) {
      throw new IllegalArgumentException(toward.length + " directions for " + frame);
    }
  }

  /** Index of the cell that receives this cell's water, or −1 where it leaves or is unknown. */
  public int receiver(int cell) {
    byte k = toward[cell];
    return k >= LEAVES ? -1 : cell + Neighbours.DROW[k] * frame.cols() + Neighbours.DCOL[k];
  }

  /** Distance in metres to the cell that receives this cell's water, where one does. */
  public double stepM(int cell) {
    return frame.cellM() * stepCells(cell);
  }

  /** That distance in cells. */
  public double stepCells(int cell) {
    return Neighbours.DISTANCE[toward[cell]];
  }
}
