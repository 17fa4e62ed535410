using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.StaticFiles;
using Microsoft.Net.Http.Headers;
using Shimwright.Pages.Visits;
using Shimwright.Web.Visitors;

namespace Shimwright.Web.PhoneBench;

/// <summary>The files of the bench that runs in a phone by itself. They lie beside the program and hold nothing of anybody's bench.</summary>
public static class PocketFiles
{
    /// <summary>Where a server offers them.</summary>
    public const string Address = "/pocket";

    private const string Start = "index.html";
    private const string Fingerprinted = "_framework/";
    private const string Packed = ".br";
    private const string PackedToo = ".gz";

    private static readonly FileExtensionContentTypeProvider Types = new();

    /// <summary>Where they lie; null where this build of the program has none.</summary>
    public static string? Folder { get; } = Path.Combine(AppContext.BaseDirectory, "pocket") is var folder && File.Exists(Path.Combine(folder, Start)) ? folder : null;

    /// <summary>Offers them.</summary>
    /// <param name="routes">The server's addresses.</param>
    internal static void MapPocket(this IEndpointRouteBuilder routes)
    {
        Dictionary<string, string> files = Folder is { } folder ? All(folder).ToDictionary(f => f, f => Path.Combine(folder, f), StringComparer.Ordinal) : [];
        routes.MapGet(Address + "/{**file}", (string? file, HttpContext context) => Send(context, files, file is null or "" ? Start : file))
            .ForAccess(AccessRules.Open).ExcludeFromDescription();
    }

    /// <summary>Writes the folder for any host of files.</summary>
    /// <param name="to">A folder that is not there yet, or is empty.</param>
    /// <returns>How many files were written, and their bytes.</returns>
    /// <exception cref="InvalidOperationException">This build has none.</exception>
    public static (int Count, long Bytes) Write(string to)
    {
        string from = Folder ?? throw new InvalidOperationException("This build has no pocket.");
        long bytes = 0;
        string[] files = [.. All(from)];
        foreach (string file in files)
        {
            string target = Path.Combine(to, file);
            Directory.CreateDirectory(Path.GetDirectoryName(target)!);
            File.Copy(Path.Combine(from, file), target);
            bytes += new FileInfo(target).Length;
        }

        return (files.Length, bytes);
    }

    /// <summary>Every file by its place, those that are packed for the way left out.</summary>
    private static IEnumerable<string> All(string folder) => Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories)
        .Where(f => !f.EndsWith(Packed, StringComparison.Ordinal) && !f.EndsWith(PackedToo, StringComparison.Ordinal))
        .Select(f => Path.GetRelativePath(folder, f).Replace('\\', '/'));

    private static Results<PhysicalFileHttpResult, RedirectHttpResult, NotFound> Send(HttpContext context, Dictionary<string, string> files, string name)
    {
        if (context.Request.Path == Address)
        {
            // What the files name stands relative to the folder.
            return TypedResults.Redirect(Address + "/");
        }

        if (!files.TryGetValue(name, out string? path))
        {
            return TypedResults.NotFound();
        }

        IHeaderDictionary headers = context.Response.Headers;
        headers.CacheControl = name.StartsWith(Fingerprinted, StringComparison.Ordinal) ? "public, max-age=31536000, immutable" : "no-cache";
        headers.Vary = HeaderNames.AcceptEncoding;
        if (File.Exists(path + Packed) && context.Request.GetTypedHeaders().AcceptEncoding.Any(e => e.Value == "br" && e.Quality is null or > 0))
        {
            headers.ContentEncoding = "br";
            path += Packed;
        }

        return TypedResults.PhysicalFile(path, TypeOf(name));
    }

    private static string TypeOf(string name) => Path.GetExtension(name) switch
    {
        ".wasm" => "application/wasm",
        ".webmanifest" => "application/manifest+json",
        _ => Types.TryGetContentType(name, out string? type) ? type : "application/octet-stream",
    };
}
