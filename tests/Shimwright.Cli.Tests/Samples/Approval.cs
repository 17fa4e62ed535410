using System.Reflection;

namespace Shimwright.Cli.Tests.Samples;

/// <summary>
/// Compares what the program prints word for word with an approved file. With SHIMWRIGHT_APPROVE=1 in the
/// environment the files in the source folder are written anew instead; look at the difference before committing it.
/// </summary>
internal static class Approval
{
    private const string Variable = "SHIMWRIGHT_APPROVE";

    private static readonly string Folder = typeof(Approval).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>()
        .Single(a => a.Key == "ApprovedFolder").Value!;

    public static void Verify(string name, string text)
    {
        string received = text.ReplaceLineEndings("\n");
        if (Environment.GetEnvironmentVariable(Variable) == "1")
        {
            Directory.CreateDirectory(Folder);
            File.WriteAllText(Path.Combine(Folder, name + ".txt"), received);
            return;
        }

        string approved = Path.Combine(AppContext.BaseDirectory, "Approved", name + ".txt");
        if (File.Exists(approved) && File.ReadAllText(approved) == received)
        {
            return;
        }

        string kept = Path.Combine(AppContext.BaseDirectory, name + ".received.txt");
        File.WriteAllText(kept, received);
        Assert.Fail(
            $"{name}.txt is not what the program prints.\nApproved: {approved}\nReceived: {kept}\n"
            + $"Where the new text is right, run this test program once with {Variable}=1, look at the difference, build and commit.\n\n{received}");
    }
}
