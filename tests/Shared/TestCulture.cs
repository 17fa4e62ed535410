using System.Globalization;
using System.Runtime.CompilerServices;

namespace Shimwright.Testing;

/// <summary>Runs the whole suite under a culture with decimal commas when the test script asks for it.</summary>
internal static class TestCulture
{
    /// <summary>The variable by which the script asks.</summary>
    public const string Variable = "SHIMWRIGHT_TEST_CULTURE";

    [ModuleInitializer]
    internal static void Use()
    {
        if (Environment.GetEnvironmentVariable(Variable) != "comma")
        {
            return;
        }

        // Made here rather than looked up, so that it is there on a machine without culture data.
        var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        comma.NumberFormat.NumberDecimalSeparator = ",";
        comma.NumberFormat.NumberGroupSeparator = ".";
        CultureInfo.DefaultThreadCurrentCulture = comma;
        CultureInfo.DefaultThreadCurrentUICulture = comma;
        Thread.CurrentThread.CurrentCulture = comma;
        Thread.CurrentThread.CurrentUICulture = comma;
    }
}
