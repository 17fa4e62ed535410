using System.Text;
using System.Text.Json.Nodes;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Sheets;

/// <summary>A sheet as a job for a purpose, and as a job file, which every command reads.</summary>
public static class JobSheetFile
{
    /// <summary>Reads the sheet for a purpose.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="purpose">The purpose.</param>
    /// <returns>The job, or what is still missing or wrong.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> is null.</exception>
    public static ParsedJob Read(JobSheet sheet, JobPurpose purpose)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return JobFile.Read(WrittenSheet.Of(sheet), sheet.Setup.Start, purpose);
    }

    /// <summary>The lifted camshafts of the check, by name: those that the job started with and those that were measured since.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <returns>The names.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> is null.</exception>
    public static IReadOnlyList<string> CamshaftNames(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return [.. (WrittenSheet.Camshafts(sheet) ?? []).Select(c => c.Name)];
    }

    /// <summary>The sheet as a job file. What the sheet says nothing of stands in it as it was written down when the job was started.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <returns>The file, indented.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> is null.</exception>
    public static byte[] Write(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        var file = (JsonObject)JsonNode.Parse(sheet.Setup.Json)!;
        foreach ((string name, JsonNode? member) in Members(WrittenJson.Write(Said(sheet))))
        {
            if (name == "check")
            {
                foreach ((string of, JsonNode? part) in Members((JsonObject)member!))
                {
                    file[name]![of] = part;
                }
            }
            else
            {
                file[name] = member;
            }
        }

        return Encoding.UTF8.GetBytes(ResultJson.Indent(file) + "\n");
    }

    /// <summary>What the sheet says itself, without what the job only started with.</summary>
    private static WrittenJob Said(JobSheet sheet)
    {
        WrittenJob job = WrittenSheet.Of(sheet);
        return job with
        {
            History = null,
            Rounds = null,
            Settings = null,
            Stock = WrittenSheet.HasStock(sheet) ? job.Stock : null,
            Costs = sheet.Newest<CostsStated>() is not null ? job.Costs : null,
            Check = job.Check with
            {
                Blades = null,
                Loss = sheet.Suspected is { Loss: not null } ? job.Check.Loss : null,
                Camshafts = sheet.Camshafts.Any() ? job.Check.Camshafts : null,
            },
        };
    }

    /// <summary>The members of an object, which has them no longer.</summary>
    private static KeyValuePair<string, JsonNode?>[] Members(JsonObject of)
    {
        KeyValuePair<string, JsonNode?>[] members = [.. of];
        of.Clear();
        return members;
    }
}
