package org.yardfall.sheet;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.yardfall.layer.CleanText;
import org.yardfall.layer.Result;
import org.yardfall.site.UnitSystem;

/** Where the ground and the rain come from and how well they are known, in words. */
final class SourceNotes {

  private SourceNotes() {}

  static List<String> of(Result result, UnitSystem units) {
    Wording wording = new Wording(result, units);
    List<String> notes = new ArrayList<>();
    result
        .terrain()
        .sources()
        .forEach(
            source ->
                notes.add("Ground: " + CleanText.of(wording.of(withoutFolder(source))) + "."));
    String date = result.site().elevation().date();
    notes.add("Ground as of " + (date.isBlank() ? "a date not stated." : CleanText.of(date) + "."));
    notes.add(
        "Vertical accuracy (RMSE) "
            + units.elevation(result.terrain().accuracyM())
            + (result.terrain().accuracyStated() ? ", as stated." : ", assumed."));
    String datum = result.terrain().verticalDatum();
    notes.add(
        "Elevations in "
            + units.lengthUnit()
            + ", vertical datum "
            + (datum.isBlank() ? "not stated" : CleanText.of(datum))
            + "; plan in "
            + result.site().crs().name()
            + ".");
    result
        .ledger()
        .ifPresent(
            ledger ->
                notes.add(
                    "Rain: "
                        + ledger.storm().words(units)
                        + (result.site().storm().table() == null
                            ? "."
                            : ", intensities of "
                                + CleanText.of(
                                    String.valueOf(result.site().storm().table().getFileName()))
                                + ".")));
    Path photo = result.site().inputs().ortho();
    if (photo != null) {
      notes.add(
          "Orthophoto: "
              + CleanText.of(String.valueOf(photo.getFileName()))
              + ", of a date of its own; nothing is measured in it.");
    }
    notes.add("Contours are smoothed for drawing. Parcel lines are not a boundary survey.");
    return notes;
  }

  /** A source begins with its file: where that lay is of no use on another machine. */
  private static String withoutFolder(String source) {
    int end = source.indexOf(": ");
    int folder =
        end < 0 ? -1 : Math.max(source.lastIndexOf('/', end), source.lastIndexOf('\\', end));
    return source.substring(folder + 1);
  }
}
