using System.Reflection.PortableExecutable;
using Shimwright.Testing.Served;

namespace Shimwright.Browser.Running;

/// <summary>What is compiled ahead in the program as it is published. A setting that the SDK no longer reads is ignored without a word: a plan then takes twice as long.</summary>
public sealed class PublishedProgramTests
{
    [Fact]
    public void Libraries_OfOurs_AreCompiledAheadWithGenericsOfOtherAssemblies()
    {
        string[] libraries = [.. Directory.GetFiles(Path.Combine(Repository.Root, "artifacts", "app"), "*himwright*.dll")];
        Assert.True(libraries.Length > 5);
        Assert.All(libraries, file => Assert.True(HoldsGenericsOfOthers(file), file));
    }

    /// <summary>The flags of the header of compiled code: source, "readytorun.h" of the runtime, READYTORUN_HEADER and READYTORUN_FLAG_UNRELATED_R2R_CODE.</summary>
    private static bool HoldsGenericsOfOthers(string file)
    {
        const uint Signature = 0x00525452;
        const uint UnrelatedCode = 0x80;
        using var pe = new PEReader(File.OpenRead(file));
        DirectoryEntry header = pe.PEHeaders.CorHeader?.ManagedNativeHeaderDirectory ?? default;
        if (header.Size == 0)
        {
            return false;
        }

        var reader = pe.GetSectionData(header.RelativeVirtualAddress).GetReader();
        Assert.Equal(Signature, reader.ReadUInt32());
        reader.ReadUInt32();
        return (reader.ReadUInt32() & UnrelatedCode) != 0;
    }
}
