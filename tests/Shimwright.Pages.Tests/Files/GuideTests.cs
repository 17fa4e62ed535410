using System.Text;
using Shimwright.Pages.Files;
using Shimwright.Testing.Served;

namespace Shimwright.Pages.Tests.Files;

/// <summary>The guide describes every list and column as the file has them. With SHIMWRIGHT_APPROVE=1 it is written anew.</summary>
public class GuideTests
{
    private const string Begin = "<!-- lists -->\n", End = "<!-- end of lists -->";

    [Fact]
    public void Guide_OfTheLists_SaysWhatTheFilesHave()
    {
        string file = Path.Combine(Repository.Root, "docs", "guide", "open-data.md");
        string text = File.ReadAllText(file);
        int from = text.IndexOf(Begin, StringComparison.Ordinal) + Begin.Length, to = text.IndexOf(End, StringComparison.Ordinal);
        if (Environment.GetEnvironmentVariable("SHIMWRIGHT_APPROVE") == "1")
        {
            File.WriteAllText(file, text[..from] + Tables() + text[to..]);
            return;
        }

        Assert.Equal(Tables(), text[from..to]);
    }

    private static string Tables()
    {
        StringBuilder tables = new();
        foreach (BenchList list in BenchLists.All)
        {
            tables.Append("\n### ").Append(list.Title).Append("\n\n`").Append(list.Template.Replace("{id:guid}", "ID", StringComparison.Ordinal)).Append("`\n\n| column | what |\n|---|---|\n");
            foreach ((string name, string about) in list.Columns)
            {
                tables.Append("| `").Append(name).Append("` | ").Append(about).Append(" |\n");
            }
        }

        return tables.Append('\n').ToString();
    }
}
