using System.Globalization;

namespace Shimwright.Releases;

internal static class Program
{
    private const string Usage = """
        releases pack FOLDER ARCHIVE SECONDS        a folder as .tar.gz or .zip; every file dated to these seconds since 1970
        releases repack PACKAGE SECONDS             a .nupkg made anew with the same dates and order
        releases notices FILE PART=ASSETS...        the notices of the packages in these project.assets.json
        releases bill FILE VERSION SECONDS PART=ASSETS...
        """;

    private static int Main(string[] args)
    {
        try
        {
            switch (args)
            {
                case ["pack", var folder, var archive, var seconds]:
                    Archives.Pack(folder, archive, Moment(seconds));
                    return 0;
                case ["repack", var package, var seconds]:
                    Archives.Repack(package, Moment(seconds));
                    return 0;
                case ["notices", var file, .. var parts] when parts.Length > 0:
                    File.WriteAllText(file, ThirdPartyNotices.Of(Shipped.Of(parts)));
                    return 0;
                case ["bill", var file, var version, var seconds, .. var parts] when parts.Length > 0:
                    File.WriteAllText(file, BillOfMaterials.Of(version, Moment(seconds), Shipped.Of(parts)));
                    return 0;
                default:
                    Console.Error.WriteLine(Usage);
                    return 2;
            }
        }
        catch (Exception wrong) when (wrong is IOException or InvalidDataException or UnauthorizedAccessException or FormatException)
        {
            Console.Error.WriteLine(wrong.Message);
            return 1;
        }
    }

    private static DateTimeOffset Moment(string seconds) => DateTimeOffset.FromUnixTimeSeconds(long.Parse(seconds, CultureInfo.InvariantCulture));
}
