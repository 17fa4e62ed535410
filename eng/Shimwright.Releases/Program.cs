using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;

namespace Shimwright.Releases;

internal static class Program
{
    private const string Usage = """
        releases pack FOLDER ARCHIVE SECONDS        a folder as .tar.gz or .zip; every file dated to these seconds since 1970
        releases repack PACKAGE SECONDS             a .nupkg made anew with the same dates and order
        releases repack-image ARCHIVE SECONDS       a container's archive made anew with the same date
        releases notices FILE PART=ASSETS...        the notices of the packages in these project.assets.json
        releases bill FILE VERSION SECONDS PART=ASSETS... [base=LIST]   with the packages of a base that eng/base-image made
        releases on-base LAYER COMMAND ARGUMENT...  runs a command with -p:ContainerBaseImage=IMAGE at its end; the image has this .tar.gz as its layer and can be had until the command ends
        """;

    private const string Base = "base=";

    private static async Task<int> Main(string[] args)
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
                case ["repack-image", var archive, var seconds]:
                    ContainerArchive.Repack(archive, Moment(seconds));
                    return 0;
                case ["notices", var file, .. var parts] when parts.Length > 0:
                    File.WriteAllText(file, ThirdPartyNotices.Of(Shipped.Of(parts)));
                    return 0;
                case ["bill", var file, var version, var seconds, .. var parts] when parts.Length > 0:
                    ILookup<bool, string> isBase = parts.ToLookup(p => p.StartsWith(Base, StringComparison.Ordinal));
                    File.WriteAllText(file, BillOfMaterials.Of(version, Moment(seconds), Shipped.Of(isBase[false]), [.. isBase[true].SelectMany(p => BasePackage.Read(p[Base.Length..]))]));
                    return 0;
                case ["on-base", var layer, var command, .. var rest]:
                    await using (var image = new BaseImage(File.ReadAllBytes(layer)))
                    {
                        using Process run = Process.Start(command, [.. rest, $"-p:ContainerBaseImage={image.Name}", "-p:ContainerGenerateLabelsImageBaseName=false"]);
                        await run.WaitForExitAsync();
                        return run.ExitCode;
                    }

                default:
                    Console.Error.WriteLine(Usage);
                    return 2;
            }
        }
        catch (Exception wrong) when (wrong is IOException or InvalidDataException or UnauthorizedAccessException or FormatException or Win32Exception)
        {
            Console.Error.WriteLine(wrong.Message);
            return 1;
        }
    }

    private static DateTimeOffset Moment(string seconds) => DateTimeOffset.FromUnixTimeSeconds(long.Parse(seconds, CultureInfo.InvariantCulture));
}
