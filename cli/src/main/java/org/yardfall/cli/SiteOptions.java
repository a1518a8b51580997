package org.yardfall.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.yardfall.elevation.ElevationSource;
import org.yardfall.site.BadInputException;
import org.yardfall.site.ShortForm;
import org.yardfall.site.Site;
import org.yardfall.site.SiteReader;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Where a command's site comes from: a site file, or files named one by one. */
final class SiteOptions {

  @Parameters(
      index = "0",
      arity = "0..1",
      paramLabel = "SITE.yml",
      description = "The site file; without it, name the files by the options below.")
  private Path siteFile;

  @Option(
      names = "--elevation",
      paramLabel = "FILE",
      description = "An elevation raster; may be repeated for tiles.")
  private List<Path> elevation = List.of();

  @Option(
      names = "--shots",
      paramLabel = "FILE",
      description =
          "Survey shots in place of a raster; with a site file, shots that its raster is moved and"
              + " bent to.")
  private Path shots;

  @Option(names = "--parcels", paramLabel = "FILE", description = "The parcels' outlines.")
  private Path parcels;

  @Option(names = "--id", paramLabel = "FIELD", description = "The field with the parcels' ids.")
  private String idField;

  @Option(
      names = "--lot",
      paramLabel = "ID",
      description = "The lot asked about; with a site file, in place of the one it names.")
  private String lot;

  @Option(
      names = "--outlet",
      paramLabel = "E,N[,INVERT]",
      description = "An outlet's place in the working CRS; may be repeated.")
  private List<String> outlets = List.of();

  @Option(names = "--buildings", paramLabel = "FILE", description = "The buildings' footprints.")
  private Path buildings;

  @Option(names = "--obstacles", paramLabel = "FILE", description = "What a trench must mind.")
  private Path obstacles;

  @Option(names = "--crossings", paramLabel = "FILE", description = "Walks and drives.")
  private Path crossings;

  @Option(
      names = "--pinned",
      paramLabel = "FILE",
      description = "Drains that you drew, to be graded and checked as drawn.")
  private Path pinned;

  @Option(
      names = "--crs",
      paramLabel = "NAME",
      description = "The working CRS, also of files that do not know theirs.")
  private String crs;

  /** Reads the site. */
  Site read() {
    SiteReader.prepare();
    HeadStart.awaitPlanes();
    if (siteFile != null) {
      refuseBesideSiteFile();
      Site site =
          SiteReader.read(
              siteFile,
              Optional.ofNullable(lot),
              Optional.ofNullable(pinned),
              ElevationSource.PLANES);
      return shots == null
          ? site
          : site.withElevation(site.elevation().corrected(shots.toAbsolutePath().normalize()));
    }
    if (elevation.isEmpty() && shots == null) {
      throw new BadInputException(
          "command line", "no site is given", "name a site file, or a raster with --elevation");
    }
    ShortForm form = SiteReader.shortForm();
    elevation.forEach(form::elevation);
    outlets.forEach(form::outlet);
    if (shots != null) {
      form.shots(shots);
    }
    if (parcels != null) {
      form.parcels(parcels);
    }
    if (idField != null) {
      form.idField(idField);
    }
    if (lot != null) {
      form.lot(lot);
    }
    if (buildings != null) {
      form.buildings(buildings);
    }
    if (obstacles != null) {
      form.obstacles(obstacles);
    }
    if (crossings != null) {
      form.crossings(crossings);
    }
    if (pinned != null) {
      form.pinned(pinned);
    }
    if (crs != null) {
      form.crs(crs);
    }
    return form.read(ElevationSource.PLANES);
  }

  private void refuseBesideSiteFile() {
    boolean alone =
        elevation.isEmpty()
            && outlets.isEmpty()
            && parcels == null
            && idField == null
            && buildings == null
            && obstacles == null
            && crossings == null
            && crs == null;
    if (!alone) {
      throw new BadInputException(
          "command line",
          "a site file and options that name files are given",
          "put them into the site file; only --lot, --pinned and --shots may stand beside it");
    }
  }
}
