using System.Diagnostics;
using Shimwright.Cli.Commands;
using Shimwright.Cli.Tests.Samples;
using Shimwright.Storage;
using Shimwright.Testing.Served;
using YamlDotNet.Serialization;

namespace Shimwright.Cli.Tests.Running;

/// <summary>What the files in deploy name is there: options of the program, its port, its image; and what they promise of safety stands in them.</summary>
public class DeployFilesTests
{
    private const string Analyze = "/usr/bin/systemd-analyze";

    private static readonly string Folder = Path.Combine(Repository.Root, "deploy");
    private static readonly string Unit = Path.Combine(Folder, "shimwright.service");

    [Fact]
    public void Compose_TheBench_IsStartedWithWhatTheProgramKnows()
    {
        Dictionary<object, object> compose = Compose(), bench = Map(Map(compose["services"])["bench"]);
        string[] command = Texts(bench["command"]);
        Assert.Equal("serve", command[0]);
        AssertKnown(command);
        string address = command[Array.IndexOf(command, "--db") + 1];
        Assert.Equal("PostgreSQL database shimwright on database", BenchDatabase.At(address, TimeProvider.System).Description);
        Assert.DoesNotContain("Password", address, StringComparison.OrdinalIgnoreCase);
        Assert.Contains(address[(address.IndexOf("Host=", StringComparison.Ordinal) + 5)..].Split(';')[0], Map(compose["services"]).Keys);
        Assert.Equal($"127.0.0.1:{ServeCommand.UsualPort}:{ServeCommand.UsualPort}", Assert.Single(Texts(bench["ports"])));
        string[] health = Texts(Map(bench["healthcheck"])["test"]);
        Assert.Equal(["CMD", "dotnet", "/app/shimwright.dll"], health[..3]);
        AssertKnown(health[3..]);
        string version = ProgramRun.Of("--version").OutputLines[0];
        Assert.Equal($"shimwright:{version}", bench["image"]);
    }

    [Fact]
    public void Compose_SecretsVolumesAndNetworks_AreNamedOnceAndUsed()
    {
        Dictionary<object, object> compose = Compose(), services = Map(compose["services"]);
        foreach ((string kind, Func<string, string> name) in new (string, Func<string, string>)[] { ("secrets", s => s), ("networks", n => n), ("volumes", v => v.Split(':')[0]) })
        {
            IEnumerable<string> used = services.Values.SelectMany(s => Texts(Map(s)[kind])).Select(name).Distinct();
            Assert.Equal(Map(compose[kind]).Keys.Cast<string>().Order(StringComparer.Ordinal), used.Order(StringComparer.Ordinal));
        }

        Assert.All(Map(compose["secrets"]).Values, secret => Assert.Equal(["file"], Map(secret).Keys));
        // No word of a password in what anybody on the machine may read, only files that hold one.
        Assert.All(services.Values.Select(Map).Where(s => s.ContainsKey("environment")).SelectMany(s => Map(s["environment"])).Where(e => $"{e.Key}".Contains("PASS", StringComparison.Ordinal)), entry =>
        {
            Assert.EndsWith("_FILE", (string)entry.Key, StringComparison.Ordinal);
            Assert.StartsWith("/run/secrets/", (string)entry.Value, StringComparison.Ordinal);
        });
        Assert.Equal("true", Map(Map(compose["networks"])["inside"])["internal"]);
        Assert.Equal(["inside"], Texts(Map(services["database"])["networks"]));
        Assert.False(Map(services["database"]).ContainsKey("ports"));
    }

    [Fact]
    public void Unit_TheBench_IsStartedWithWhatTheProgramKnowsAndIsShutIn()
    {
        ILookup<string, string> settings = Settings();
        string[] start = Assert.Single(settings["ExecStart"]).Split(' ');
        Assert.Equal(("/opt/shimwright/shimwright", "serve"), (start[0], start[1]));
        AssertKnown(start[1..]);
        Assert.Equal("notify", Assert.Single(settings["Type"]));
        string state = Assert.Single(settings["StateDirectory"]);
        Assert.StartsWith($"%S/{state}/", start[Array.IndexOf(start, "--db") + 1], StringComparison.Ordinal);
        // The program's own folder under the data folder is the one that may be written to.
        Assert.Contains("XDG_DATA_HOME=%S", settings["Environment"]);
        Assert.Equal(state, Path.GetFileName(BenchDatabase.DataFolder));
        Assert.All(
            new[] { "DynamicUser", "NoNewPrivileges", "PrivateTmp", "PrivateDevices", "ProtectHome", "ProtectKernelModules", "RestrictNamespaces", "RestrictSUIDSGID" },
            name => Assert.Equal("yes", Assert.Single(settings[name])));
        Assert.Equal("strict", Assert.Single(settings["ProtectSystem"]));
        Assert.Equal("", Assert.Single(settings["CapabilityBoundingSet"]));
        Assert.Equal(["AF_INET", "AF_INET6", "AF_UNIX"], Assert.Single(settings["RestrictAddressFamilies"]).Split(' ').Order(StringComparer.Ordinal));
        // What is compiled while it runs would not start.
        Assert.Empty(settings["MemoryDenyWriteExecute"]);
        if (File.Exists(Analyze))
        {
            AssertSystemdAgrees();
        }
    }

    /// <summary>Asks systemd itself: every setting is one it knows, and it finds the service little exposed (2.0 of 10).</summary>
    private static void AssertSystemdAgrees()
    {
        string folder = Directory.CreateTempSubdirectory("shimwright-unit-").FullName;
        try
        {
            string unit = Path.Combine(folder, "shimwright.service");
            // It also looks whether the program is installed.
            File.WriteAllText(unit, File.ReadAllText(Unit).Replace("/opt/shimwright/shimwright", "/bin/true", StringComparison.Ordinal));
            foreach (string[] args in new string[][] { ["verify", unit], ["security", "--offline=true", "--threshold=20", "--no-pager", unit] })
            {
                using var analyze = Process.Start(new ProcessStartInfo(Analyze, args) { RedirectStandardError = true, RedirectStandardOutput = true })!;
                Task<string> output = analyze.StandardOutput.ReadToEndAsync();
                string error = analyze.StandardError.ReadToEnd();
                analyze.WaitForExit();
                Assert.True(analyze.ExitCode == 0 && !error.Contains(unit, StringComparison.Ordinal), $"{args[0]}: {error}{output.Result}");
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>Every option is one that the help of the command names.</summary>
    private static void AssertKnown(string[] command)
    {
        string help = ProgramRun.Of(command[0], "--help").Output;
        Assert.Contains($"shimwright {command[0]}", help.Replace(Path.GetFileNameWithoutExtension(Environment.GetCommandLineArgs()[0]), "shimwright", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.All(command.Where(c => c.StartsWith('-')), option => Assert.Contains($"  {option} ", help, StringComparison.Ordinal));
    }

    private static ILookup<string, string> Settings() => File.ReadLines(Unit).Where(l => l.Contains('=', StringComparison.Ordinal) && !l.StartsWith('#'))
        .Select(l => l.Split('=', 2)).ToLookup(s => s[0], s => s[1], StringComparer.Ordinal);

    private static Dictionary<object, object> Compose() =>
        new DeserializerBuilder().Build().Deserialize<Dictionary<object, object>>(File.ReadAllText(Path.Combine(Folder, "compose.yaml")));

    private static Dictionary<object, object> Map(object value) => Assert.IsType<Dictionary<object, object>>(value);

    private static string[] Texts(object value) => [.. Assert.IsType<List<object>>(value).Cast<string>()];
}
